import type { Feature, FeatureId, MakerId, Observation, PartId, Seen, Sheet, Slip, SlotId } from '../../reasoner/index.ts';
import type { SlipOf } from '../read/asked.ts';

/** What the atlas must be asked about a sheet. */
export interface KnownToAtlas {
  slot(id: SlotId): { readonly name: string } | undefined;
  feature(id: FeatureId): Feature | undefined;
  part(id: PartId): { readonly slot: SlotId } | undefined;
  maker(id: MakerId): unknown;
  /**
   * Says of an entry's figures whether they can be, and are plausible (O7). Given wherever entries come in from outside; a sheet that is in the house
   * already is held against the atlas without it.
   */
  readonly slipOf?: SlipOf;
}

/** A place where a sheet and the atlas do not agree. `path` leads to it within the sheet. */
export interface SheetFault {
  readonly code: 'sheet-unknown' | 'sheet-invalid' | 'sheet-doubted';
  readonly path: readonly PropertyKey[];
  readonly found: string;
  readonly expected: string;
  /** Of what is only doubted: what to say to somebody who can be asked. */
  readonly question?: string;
}

/** The path to something within an entry of the sheet. */
type At = (...path: PropertyKey[]) => PropertyKey[];

/** Everything in a well-formed sheet that the atlas does not know, or knows otherwise. Observations that contradict each other are the reasoner's (O6). */
export const faultsOfSheet = (sheet: Sheet, atlas: KnownToAtlas): SheetFault[] => {
  const faults: SheetFault[] = [];
  const unknown = (path: readonly PropertyKey[], found: string, expected: string) =>
    faults.push({ code: 'sheet-unknown', path, found, expected });
  const invalid = (path: readonly PropertyKey[], found: string, expected: string) =>
    faults.push({ code: 'sheet-invalid', path, found, expected });

  if (sheet.claimedMaker !== null && atlas.maker(sheet.claimedMaker) === undefined)
    unknown(['claimedMaker'], sheet.claimedMaker, 'a maker of the atlas');

  /** The feature an entry is of, where the atlas has it and it is one of the slot's. */
  const featureOf = ({ slot, feature }: Pick<Observation, 'slot' | 'feature'>, at: At): Feature | null => {
    const [own, known] = [atlas.slot(slot), atlas.feature(feature)];
    if (own === undefined) unknown(at('slot'), slot, 'a slot of the atlas');
    if (known === undefined) unknown(at('feature'), feature, 'a feature of the atlas');
    if (own === undefined || known === undefined) return null;
    if (known.slot === slot) return known;
    unknown(at('feature'), feature, `a feature of the ${own.name}`);
    return null;
  };
  const notTwice = (met: Set<string>, id: string, path: readonly PropertyKey[], expected: string): void => {
    if (met.has(id)) invalid(path, id, expected);
    met.add(id);
  };

  const ids = new Set<string>();
  sheet.observations.forEach((observation, index) => {
    const at: At = (...path) => ['observations', index, ...path];
    notTwice(ids, observation.id, at('id'), 'an id no other observation of the sheet has');
    const feature = featureOf(observation, at);
    if (feature === null) return;
    const known = faults.length;
    valueFaults(observation, feature, at, invalid);
    if (faults.length === known && atlas.slipOf !== undefined)
      faults.push(...slipFaults(observation, atlas.slipOf(feature, observation.value, observation.sure), at));
  });

  const unseen = new Set<string>();
  sheet.unseen?.forEach((entry, index) => {
    const at: At = (...path) => ['unseen', index, ...path];
    featureOf(entry, at);
    notTwice(unseen, entry.feature, at('feature'), 'every unseen feature once');
  });

  const absent = new Set<string>();
  sheet.absent.forEach((slot, index) => {
    if (atlas.slot(slot) === undefined) unknown(['absent', index], slot, 'a slot of the atlas');
    notTwice(absent, slot, ['absent', index], 'every absent slot once');
  });

  for (const [slot, part] of Object.entries(sheet.chosen) as [SlotId, PartId][]) {
    const known = atlas.part(part);
    if (sheet.kind === 'found') invalid(['chosen', slot], part, 'no chosen parts on the sheet of a found unit');
    else if (atlas.slot(slot) === undefined) unknown(['chosen', slot], slot, 'a slot of the atlas');
    else if (known === undefined) unknown(['chosen', slot], part, 'a part of the atlas');
    else if (known.slot !== slot) invalid(['chosen', slot], part, `a part of this slot (it is one of ${known.slot})`);
  }
  return faults;
};

/** What is impossible is refused; what is implausible is doubted where nobody confirmed it, and the likely slip named. */
const slipFaults = ({ value, sure, confirmed }: Observation, slip: Slip, at: At): SheetFault[] => {
  if (slip.kind === 'plausible' || (slip.kind === 'implausible' && confirmed === true)) return [];
  const [path, found] = figureOf(value, at);
  if (slip.kind === 'implausible')
    return [
      { code: 'sheet-doubted', path, found, expected: implausibleAsked(slip, '"confirmed": true beside it'), question: questionOf(slip) },
    ];
  const expected = impossibleAsked(slip);
  return slip.of === 'uncertainty' && sure.kind === 'measured'
    ? [{ code: 'sheet-invalid', path: at('sure', 'u'), found: String(sure.u), expected }]
    : [{ code: 'sheet-invalid', path, found, expected }];
};

/** To somebody who can be asked: `… lies outside what is usual, 20 to 200 mm. Was it 57.2 mm, if the decimal point slipped?` */
const questionOf = ({ sentence, likely }: Extract<Slip, { kind: 'implausible' }>): string => {
  const meant = likely.map((one) => one.sentence).join('; or ');
  return `${sentence}${meant === '' ? '' : ` It would be ${meant}.`} Say that it is what was read, or enter it again.`;
};

/** Where the figure of an entry stands, and how it reads. */
const figureOf = (value: Seen, at: At): readonly [PropertyKey[], string] => {
  if (value.kind === 'measure') return [at('value', 'value'), String(value.value)];
  if (value.kind === 'count') return [at('value', 'from'), value.from === value.to ? `${value.from}` : `${value.from} to ${value.to}`];
  return [at('value'), value.kind];
};

/** To stand after "expected": a figure that can be, and why this cannot. */
export const impossibleAsked = ({ sentence }: Extract<Slip, { kind: 'impossible' }>): string => `a figure that can be (${bare(sentence)})`;

/** To stand after "expected": what may have been meant, how to say that it was read so, and what is usual. */
export const implausibleAsked = ({ sentence, likely }: Extract<Slip, { kind: 'implausible' }>, confirmed: string): string => {
  const meant = likely.length === 0 ? 'a usual figure' : likely.map((one) => one.sentence).join('; or ');
  return `${meant}; or ${confirmed}, where it was read so (${bare(sentence)})`;
};

const bare = (sentence: string): string => sentence.replace(/\.$/, '');

type Report = (path: readonly PropertyKey[], found: string, expected: string) => void;

const valueFaults = (observation: Observation, feature: Feature, at: At, invalid: Report): void => {
  const { value, sure } = observation;
  if (value.kind !== feature.kind) {
    invalid(at('value', 'kind'), value.kind, `${feature.kind}, which the ${feature.name} is`);
    return;
  }
  if (value.kind === 'choice' && !feature.options?.some((option) => option.id === value.option)) {
    invalid(at('value', 'option'), value.option, feature.options?.map((option) => option.id).join(' or ') ?? 'an option');
  }
  if (value.kind === 'mark' && value.text !== null && value.text.trim() === '') {
    invalid(at('value', 'text'), 'an empty text', 'letters, or null where there are none');
  }
  if (value.kind === 'measure' && sure.kind === 'seen') invalid(at('sure', 'kind'), 'seen', 'measured or told, for a measure');
  if (value.kind !== 'measure' && sure.kind === 'measured') invalid(at('sure', 'kind'), 'measured', `seen or told, for a ${value.kind}`);
};
