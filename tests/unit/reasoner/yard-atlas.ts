import {
  type Atlas,
  type CompiledAtlas,
  compileAtlas,
  type Fact,
  type Model,
  type Observation,
  type Part,
} from '../../../reasoner/index.ts';
import { feature, saw } from './little-atlas.ts';

/**
 * Small atlases made to order: of each slot the parts are known by the one letter cast on them, and a model is what it lists. Where nothing else is said nothing
 * has to fit anything.
 */
const plain = <T>(value: unknown): T => value as T;

const slots = [
  ['wheel', 'core'],
  ['shaft', 'core'],
  ['front', 'housing'],
  ['back', 'housing'],
  ['elbow', 'housing'],
  ['plate', 'plate'],
] as const;
export type SlotName = (typeof slots)[number][0];

/** What a model lists: of each slot the letters of parts, with `+` before an option and `~` before a service part: `a +b ~c`. */
export type Lists = Partial<Record<SlotName, string>>;

export interface Yard {
  /** Of each family its maker, or null. */
  readonly families: Readonly<Record<string, string | null>>;
  /** Of each model its family and its lists; `Cod 1` is of the family Cod. */
  readonly models: Readonly<Record<string, Lists & { readonly openEnded?: readonly SlotName[]; readonly patternOf?: string }>>;
  /** Makers without the plate rule. */
  readonly plateless?: readonly string[];
  /** Which slots there are; all of them, where it is not said. */
  readonly without?: readonly SlotName[];
  /** Of which two slots parts fit only in these pairs: `ab`, or `a1:b1` of names longer than a letter. */
  readonly fits?: readonly { readonly a: SlotName; readonly b: SlotName; readonly pairs: readonly string[] }[];
  /** Parts that take another's place: `shaft b` for `shaft a`. */
  readonly supersedes?: Readonly<Record<string, string>>;
  /** More parts, listed by no model. */
  readonly strays?: Lists;
}

export const idOf = (name: string): string => name.toLowerCase().replaceAll(' ', '-');
const entriesOf = (list: string) =>
  list
    .split(' ')
    .filter((text) => text !== '')
    .map((text) => ({
      letter: text.replace(/^[+~]/, ''),
      role: text.startsWith('+') ? 'option' : text.startsWith('~') ? 'service' : 'names',
    }));

export const yardAtlas = ({ families, models, plateless = [], without = [], fits = [], supersedes = {}, strays = {} }: Yard): Atlas => {
  const own = slots.filter(([slot]) => !without.includes(slot));
  const letters = (slot: SlotName): string[] => [
    ...new Set([...Object.values(models), strays].flatMap((lists) => entriesOf(lists[slot] ?? '').map(({ letter }) => letter))),
  ];
  const makers = [...new Set(Object.values(families).flatMap((maker) => maker ?? []))];
  const makerOf = (slot: SlotName, letter: string): string | null =>
    Object.entries(models).flatMap(([name, lists]) =>
      entriesOf(lists[slot] ?? '').some((each) => each.letter === letter) ? [families[familyIn(name)] ?? null] : [],
    )[0] ?? null;
  const part = (slot: SlotName, letter: string): Part =>
    plain<Part>({
      id: `${slot} ${letter}`,
      slot,
      name: `${letter} ${slot}`,
      maker: makerOf(slot, letter),
      numbers: [`${slot} ${letter}`],
      facts: {
        [`${slot}.letter`]: { kind: 'choice', anyOf: [letter] } satisfies Fact,
        ...Object.fromEntries(
          fits.flatMap((fit, i) => {
            const side = fit.a === slot ? 0 : fit.b === slot ? 1 : null;
            if (side === null) return [];
            const met = fit.pairs.filter((pair) => (pair.includes(':') ? pair.split(':') : [...pair])[side] === letter);
            return [[`${slot}.fit-${i}`, { kind: 'choice', anyOf: met.length === 0 ? [`none ${side}`] : met } satisfies Fact]];
          }),
        ),
      },
      source: 'made-up',
      ...(supersedes[`${slot} ${letter}`] === undefined ? {} : { supersedes: supersedes[`${slot} ${letter}`] }),
    });
  return plain<Atlas>({
    edition: 'yard',
    sources: [{ id: 'made-up', title: 'made up for a test', kind: 'invented' }],
    stages: [
      { id: 'as-received', name: 'as received', minutes: 0, after: [] },
      { id: 'stripped', name: 'core stripped', minutes: 40, after: ['as-received'] },
    ],
    slots: own.map(([id, group]) => ({ id, name: id, group, stage: group === 'core' ? 'stripped' : 'as-received', swapMinutes: 10 })),
    ports: fits.flatMap(({ a, b }, i) => [
      { id: `a-${i}`, slot: a, name: 'fit' },
      { id: `b-${i}`, slot: b, name: 'fit' },
    ]),
    features: [
      ...own.map(([slot, group]) =>
        feature(
          `${slot}.letter`,
          'choice',
          plain({ options: options(letters(slot)), stage: group === 'core' ? 'stripped' : 'as-received' }),
        ),
      ),
      ...fits.flatMap(({ a, b, pairs }, i) =>
        [a, b].map((slot) => feature(`${slot}.fit-${i}`, 'choice', { options: options([...pairs, 'none 0', 'none 1']) })),
      ),
    ],
    joints: fits.map(({ a, b }, i) => ({
      id: `fit-${i}`,
      name: `${a} in ${b}`,
      a: `a-${i}`,
      b: `b-${i}`,
      rules: [{ kind: 'same', what: 'fit', a: `${a}.fit-${i}`, b: `${b}.fit-${i}` }],
      source: 'made-up',
    })),
    makers: makers.map((name) => ({
      id: idOf(name),
      name,
      tradeNames: [],
      plateRule: !plateless.includes(name),
      grammar: null,
      source: 'made-up',
    })),
    families: Object.entries(families).map(([name, maker]) => ({
      id: idOf(name),
      name,
      maker: maker === null ? null : idOf(maker),
      from: null,
      to: null,
      descendsFrom: [],
      succeeds: [],
      patternOf: [],
      about: '',
      source: 'made-up',
    })),
    generations: [],
    models: Object.entries(models).map(
      ([name, { openEnded, patternOf, ...lists }]): Model =>
        plain<Model>({
          id: idOf(name),
          name,
          family: idOf(familyIn(name)),
          generation: null,
          patternOf: patternOf === undefined ? null : idOf(patternOf),
          from: null,
          to: null,
          source: 'made-up',
          allowed: (Object.entries(lists) as [SlotName, string][]).flatMap(([slot, list]) =>
            without.includes(slot) ? [] : entriesOf(list).map(({ letter, role }) => ({ slot, part: `${slot} ${letter}`, role })),
          ),
          ...(openEnded === undefined ? {} : { openEnded }),
        }),
    ),
    parts: own.flatMap(([slot]) => letters(slot).map((letter) => part(slot, letter))),
  });
};

const familyIn = (model: string): string => model.slice(0, model.lastIndexOf(' '));
const options = (ids: readonly string[]) => plain<never>(ids.map((id) => ({ id, name: id })));

export const yard = (of: Yard): CompiledAtlas => compileAtlas(yardAtlas(of));

/** What was seen: of each slot the letter cast on its part. */
export const seen = (parts: Partial<Record<SlotName, string>>): Observation[] =>
  Object.entries(parts).map(([slot, option]) => saw(`${slot}.letter`, { kind: 'choice', option }));
