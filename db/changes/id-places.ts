import type { Atlas, FeatureId } from '../../reasoner/index.ts';
import type { Named, Values } from '../atlas/list.ts';
import type { ListName } from '../atlas/lists.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { EditedList } from '../edits/seen.ts';

/** A way to an id in an entry: `*` is every place of a list, or what stands under every key; `#` every key itself. */
export type Way = readonly string[];

interface Place {
  readonly at: Way;
  /** What it leads to, as the list calls one. */
  readonly to: string;
}

const all = (to: string, ...ways: readonly string[]): readonly Place[] => ways.map((way) => ({ at: way.split(' '), to }));

/** Where ids stand that are no references of a list (`references` in atlas/lists.ts), since more than their leading somewhere is asked of them. */
const others: { readonly [list: EditedList]: readonly Place[] } = {
  joints: all(
    'feature',
    ...['spigot', 'recess', 'inner', 'outer', 'shaft', 'bore', 'a', 'b'].map((side) => `rules * ${side}`),
    ...['wheel', 'housing', 'needs', 'offers'].map((side) => `rules * pairs * ${side}`),
    ...['external', 'internal'].flatMap((end) => [`rules * ${end} size`, `rules * ${end} hand`]),
    ...['a', 'b'].flatMap((side) => ['count', 'diameter', 'bolt'].map((of) => `rules * ${side} ${of}`)),
  ),
  makers: [...all('feature', 'grammar tokens * promises * feature'), ...all('slot', 'numbering * pieces * codes *')],
  operations: all(
    'feature',
    'takes * feature',
    ...['feature', 'metal * feature', 'moves * feature'].map((of) => `does cuts * ${of}`),
    ...['feature', 'count', 'diameter', 'bolt', 'land inner', 'land outer', 'offers * feature'].map((of) => `does ${of}`),
  ),
  chains: all('feature', 'links * feature'),
  warmth: [...all('slot', 'sides * slot'), ...all('feature', 'sides * metal', 'sides * turns bore')],
  rates: all('part', 'parts * part'),
  drawings: all('feature', 'feeds *'),
  parts: [
    ...all('slot', 'slot'),
    ...all('maker', 'maker'),
    ...all('part', 'patternOf', 'supersedes'),
    ...all('feature', 'facts #', 'factSources #'),
    ...all('source', 'source', 'factSources *'),
  ],
};

/** The lists with every place in an entry where the id of another may stand. */
export const placesOfIds: readonly { readonly name: EditedList; readonly one: string; readonly places: readonly Place[] }[] =
  listsAndParts.map(({ name, one, references }) => ({
    name,
    one,
    places: [...references.map(({ at, to }) => ({ at, to })), ...(others[name] ?? [])],
  }));

/** An entry as a change holds it: what may sit in a model is said beside it. */
export const entriesOf = (atlas: Atlas, list: EditedList): readonly (Named & Values)[] => {
  const entries = (atlas[list as ListName | 'parts'] ?? []) as unknown as readonly (Named & Values)[];
  return list === 'models' ? entries.map(({ allowed: _allowed, ...model }) => model as Named & Values) : entries;
};

/** The ids a way leads to; where nothing stands, or null, there are none. */
export const idsOn = (value: unknown, [step, ...rest]: Way): readonly string[] => {
  if (step === undefined) return typeof value === 'string' ? [value] : [];
  if (typeof value !== 'object' || value === null) return [];
  if (step === '#') return Object.keys(value);
  const of = value as Values;
  return (step === '*' ? Object.keys(of) : [step]).flatMap((key) => idsOn(of[key], rest));
};

/** The same with another id wherever the way leads to this one; the very same value where it leads to none. A list of ids holds none twice afterwards. */
export const withId = (value: unknown, way: Way, from: string, to: string): unknown => withIds(value, way, (id) => (id === from ? to : id));

/** The same with each id a way leads to called as `called` says, all at once: two that change places do. */
export const withIds = (value: unknown, [step, ...rest]: Way, called: (id: string) => string): unknown => {
  if (step === undefined) return typeof value === 'string' ? called(value) : value;
  if (typeof value !== 'object' || value === null) return value;
  if (step === '#') {
    if (Object.keys(value).every((key) => called(key) === key)) return value;
    return Object.fromEntries(Object.entries(value).map(([key, of]) => [called(key), of]));
  }
  if (Array.isArray(value)) {
    const next = value.map((each, at) => (step === '*' || step === String(at) ? withIds(each, rest, called) : each));
    if (next.every((each, at) => each === value[at])) return value;
    return rest.length === 0 && step === '*' ? next.filter((each, at) => next.indexOf(each) === at) : next;
  }
  const of = value as Values;
  const keys = step === '*' ? Object.keys(of) : step in of ? [step] : [];
  const altered = keys.flatMap((key) => {
    const next = withIds(of[key], rest, called);
    return next === of[key] ? [] : [[key, next] as const];
  });
  return altered.length === 0 ? value : { ...of, ...Object.fromEntries(altered) };
};

/**
 * The ways on which an entry names an option of some choices. An entry names a metal so: as an option of a choice among metals, which is told by the warmth of a joint that
 * reads it.
 * @param choices the features that are meant
 */
export const optionWays = (list: EditedList, entry: Named & Values, choices: ReadonlySet<string>): readonly Way[] => {
  switch (list) {
    case 'features':
      return choices.has(entry.id)
        ? [
            ['options', '*', 'id'],
            ['remarks', '*', 'value', 'option'],
          ]
        : [];
    case 'parts':
      return [...choices].map((feature) => ['facts', feature, 'anyOf', '*']);
    case 'makers':
      return waysAlong(entry, ['grammar', 'tokens', '*', 'promises', '*'], choices).map((way) => [...way, 'of', '*', '*']);
    case 'operations':
      return [
        ...['takes', 'does offers'].flatMap((of) =>
          waysAlong(entry, [...of.split(' '), '*'], choices).map((way) => [...way, 'anyOf', '*']),
        ),
        ...idsOn(entry, ['does', 'bolt']).flatMap((bolt) => (choices.has(bolt) ? [['does', 'holes', '#']] : [])),
      ];
    default:
      return [];
  }
};

export const metalChoices = (atlas: Atlas): ReadonlySet<FeatureId> =>
  new Set((atlas.warmth ?? []).flatMap(({ sides }) => sides.map(({ metal }) => metal)));

/** The places of a way whose `feature` is among those, each as a way without `*`. */
const waysAlong = (value: unknown, [step, ...rest]: Way, features: ReadonlySet<string>, path: Way = []): readonly Way[] => {
  if (typeof value !== 'object' || value === null) return [];
  if (step === undefined) return features.has((value as Values).feature as string) ? [path] : [];
  const keys = step === '*' ? Object.keys(value) : [step];
  return keys.flatMap((key) => waysAlong((value as Values)[key], rest, features, [...path, key]));
};
