import type { Atlas, SlotId } from '../../reasoner/index.ts';
import type { Named } from '../atlas/list.ts';
import type { Entries, PackModel } from '../atlas/lists.ts';
import type { Allowance, Pack } from '../atlas/pack.ts';
import type { Faults } from '../read/faults.ts';
import type { Lookups, PlaceOf } from './lookups.ts';
import { type Warning, warning } from './warnings.ts';

/** What the models of a pack list, held together with what the atlas beside it lists for them. */
export interface Lists {
  readonly files: Entries;
  readonly allowed: readonly Allowance[];
  readonly beside: Atlas;
  /** What the packs beside it list, for its models too. */
  readonly allowedBeside: readonly Allowance[];
  readonly find: Lookups;
}

/**
 * A model without a naming slot is a fault (A7): there would be nothing its name could rest on. A slot is a naming slot where the model lists a part
 * as names or option; the nameplate only under the maker's plate rule. Of what a pack says itself its own rows count, so that no model rests on another pack's.
 * @param among the rows that count
 */
export const checkNamingSlots = (lists: Lists, among: readonly Allowance[], placeOf: PlaceOf, faults: Faults): void => {
  // A row that could not be taken in may be the very one.
  if (faults.isBroken('allowed.csv')) return;
  const naming = namedIn(among);
  lists.files.models.forEach((model, index) => {
    const named = naming.get(model.id) ?? new Set();
    if ([...named].some((slot) => counts(slot, model, lists.find))) return;
    const but = named.size > 0 ? ' but its nameplate' : '';
    faults.add(
      placeOf('models', [index]),
      `the model ${JSON.stringify(model.id)} with no part listed as names or option${but}`,
      `at least one part in allowed.csv, as names or option, that its name rests on${but === '' ? '' : ' (a nameplate counts only where the maker has the plate rule)'}`,
    );
  });
};

/** What is sound and may yet not be meant: slots a model says nothing of, families whose models no one slot names (A7), figures without a range (O7). */
export const warningsOf = (lists: Lists, placeOf: PlaceOf): Warning[] => {
  const { files, allowed, beside, allowedBeside, find } = lists;
  const slots = [...files.slots, ...beside.slots.filter(({ id }) => !files.slots.some((own) => own.id === id))];
  const listed = slotsBy([...allowed, ...allowedBeside]);
  const empty = files.models.flatMap((model, index) => {
    const nothing = slots.filter(({ id }) => listed.get(model.id)?.has(id) !== true);
    const place = placeOf('models', [index]);
    const told = (group: 'core' | 'housing', means: string) => {
      const names = nothing.filter((slot) => slot.group === group).map(({ name }) => `the ${name}`);
      return names.length === 0
        ? []
        : [
            warning(place, `the model ${JSON.stringify(model.id)} lists nothing for ${inWords(names)}`, `${unknown(names)}, so ${means}.`, {
              alike: { cause: names.join(), name: model.id },
            }),
          ];
    };
    return [...told('core', 'none of its names can ever stand'), ...told('housing', 'no name that speaks of that housing can ever stand')];
  });

  const naming = namedIn([...allowed, ...allowedBeside]);
  const models: readonly PackModel[] = [...files.models, ...beside.models];
  const apart = files.families.flatMap((family, index) => {
    const named = models
      .filter((model) => model.family === family.id)
      .map((model) => [...(naming.get(model.id) ?? [])].filter((slot) => counts(slot, model, find)));
    const [first, ...others] = named;
    if (first === undefined || first.some((slot) => others.every((other) => other.includes(slot)))) return [];
    return [
      warning(
        placeOf('families', [index]),
        `the ${named.length} models of the family ${JSON.stringify(family.id)} have no naming slot in common`,
        'There is then no part by which the family is known while its model is open.',
      ),
    ];
  });
  return [...empty, ...apart, ...withoutRange(files)];
};

/** Measures and counts nobody drew a range for (O7), said once. */
const withoutRange = (files: Entries): Warning[] => {
  const figures = files.features.filter(({ kind }) => kind === 'measure' || kind === 'count');
  const bare = figures.filter(({ plausible }) => plausible === undefined).map(({ id }) => JSON.stringify(id));
  if (bare.length === 0) return [];
  const some = bare.length > 5 ? `${bare.slice(0, 5).join(', ')} and ${bare.length - 5} more` : inWords(bare);
  return [
    warning(
      { file: 'features.json' },
      `${bare.length} of ${figures.length} measures and counts have no plausible range (${some})`,
      'No reading of them is ever asked about, whatever its size.',
    ),
  ];
};

/** What has to be known of slots, families and makers. */
type Found = { readonly [N in 'slot' | 'family' | 'maker']: Pick<Lookups[N], 'get'> };

/** Models of an atlas no row of any of its packs names, with the pack each is of: what one pack takes away may leave another's model without. */
export const unnamedModels = (packs: readonly Pack[]): readonly { readonly pack: string; readonly model: PackModel }[] => {
  const naming = namedIn(packs.flatMap(({ allowed }) => allowed));
  const by = <Entry extends Named>(entries: readonly Entry[]) => new Map<string, Entry>(entries.map((entry) => [entry.id, entry]));
  const find: Found = {
    slot: by(packs.flatMap(({ slots }) => slots)),
    family: by(packs.flatMap(({ families }) => families)),
    maker: by(packs.flatMap(({ makers }) => makers)),
  };
  return packs.flatMap(({ head, models }) =>
    models.flatMap((model) =>
      [...(naming.get(model.id) ?? [])].some((slot) => counts(slot, model, find)) ? [] : [{ pack: head.id, model }],
    ),
  );
};

/** Whether what is listed there can carry a name. Of a slot or maker that could not be read, it is taken to. */
const counts = (slot: SlotId, { family }: PackModel, find: Found): boolean => {
  if (find.slot.get(slot)?.group !== 'plate') return true;
  const known = find.family.get(family);
  return known === undefined || (known.maker !== null && find.maker.get(known.maker)?.plateRule !== false);
};

/** What an atlas lists for its own models. */
export const allowedIn = (atlas: Atlas): Allowance[] =>
  atlas.models.flatMap(({ id, allowed }) => allowed.map((row) => ({ model: id, ...row })));

const namedIn = (allowed: readonly Allowance[]) => slotsBy(allowed.filter(({ role }) => role !== 'service'));

const slotsBy = (allowed: readonly Allowance[]): Map<string, Set<SlotId>> => {
  const by = new Map<string, Set<SlotId>>();
  for (const { model, slot } of allowed) {
    const of = by.get(model);
    if (of === undefined) by.set(model, new Set([slot]));
    else of.add(slot);
  }
  return by;
};

const unknown = (names: readonly string[]): string =>
  names.length === 1 ? 'What sits there is not known' : 'What sits in them is not known';

const inWords = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
