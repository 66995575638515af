import type { Atlas, Fact, Feature, Maker, Observation, Sheet, TokenPromise } from '../../reasoner/index.ts';
import type { OracleAnswer, OracleStatus } from './ask-clingo.ts';
import { partsOfRows, rowsOf } from './machined.ts';
import { numberNotListed } from './reading-plate.ts';

/** What becomes of a claim, read from reasoner/SPEC.md alone for the names the made-up atlases give: `Model` and a number. */
export interface Claimed {
  readonly status: OracleStatus;
  /** The models the claim is a name of. */
  readonly models: readonly string[];
  /** What the tokens promise and what became of it, where a grammar read the claim. */
  readonly promises: readonly ('holds' | 'fails' | 'not known')[];
}

export const claimedBy = (
  atlas: Atlas,
  sheet: Sheet,
  oracle: Pick<OracleAnswer, 'doubtful' | 'candidates'>,
  statusOf: (model: string) => OracleStatus,
): Claimed | null => {
  const text = sheet.claimed;
  if (text === null) return null;
  const makers = atlas.makers.filter(({ id }) => sheet.claimedMaker === null || id === sheet.claimedMaker);
  const listed = atlas.models.filter(({ name, family }) => {
    const maker = atlas.families.find(({ id }) => id === family)?.maker ?? null;
    return name === text && makers.some(({ id }) => id === maker);
  });
  const number = text.replace('Model ', '');
  const promisesOf = (maker: Maker) =>
    (maker.grammar?.tokens ?? []).flatMap(({ promises }) => promises.map((promise) => kept(atlas, sheet, oracle, promise, number)));
  if (listed.length > 0) {
    const statuses = listed.map(({ id }) => statusOf(id));
    const best = (['stands', 'open', 'ruled out'] as const).find((status) => statuses.includes(status)) as OracleStatus;
    return {
      status: best,
      models: listed.map(({ id }) => id as string),
      promises: listed.flatMap(({ family }) => promisesOf(ownerOf(atlas, family))),
    };
  }
  // A maker named whose grammar nobody knows, or nobody's grammar known: no rule to read it by.
  const reads = makers.filter(({ grammar }) => grammar !== null);
  const [reader] = reads;
  if (reader === undefined) return { status: 'open', models: [], promises: [] };
  const promises = promisesOf(reader);
  return { status: promises.includes('fails') ? 'ruled out' : 'open', models: [], promises };
};

const ownerOf = (atlas: Atlas, family: string): Maker => {
  const maker = atlas.families.find(({ id }) => id === family)?.maker;
  return atlas.makers.find(({ id }) => id === maker) as Maker;
};

/** O1, N6: first by what was itself seen of the feature, else by what remains in the slot, where anything narrowed it. */
const kept = (
  atlas: Atlas,
  sheet: Sheet,
  oracle: Pick<OracleAnswer, 'doubtful' | 'candidates'>,
  promise: TokenPromise,
  number: string,
): 'holds' | 'fails' | 'not known' => {
  const feature = atlas.features.find(({ id }) => id === promise.feature) as Feature;
  const seen = sheet.observations.filter((each) => each.feature === feature.id && each.sure.kind !== 'told');
  if (seen.length > 0) return seen.every((each) => promised(promise, number, readRange(each))) ? 'holds' : 'fails';
  const all = atlas.parts.filter(({ slot }) => slot === feature.slot);
  const found = oracle.candidates.get(feature.slot) ?? [];
  const left = all.filter(({ id }) => partsOfRows(found).includes(id));
  // Of a plate that no list holds nothing more is known than was seen of it.
  if (found.includes(numberNotListed)) return 'not known';
  if (oracle.doubtful.includes(feature.slot) || left.length === 0 || left.length === all.length) return 'not known';
  const truths = left.map((part) => {
    const [made, ...machined] = rowsOf(atlas, part).map(({ facts }) => facts[feature.id]);
    if (made === undefined || made.kind === 'not known') return 'not known';
    if (promised(promise, number, factRange(feature, made))) return 'holds';
    // What only work could have made so may be so.
    return machined.some((fact) => fact !== undefined && fact.kind !== 'not known' && promised(promise, number, factRange(feature, fact)))
      ? 'not known'
      : 'fails';
  });
  return truths.every((truth) => truth === 'holds') ? 'holds' : truths.every((truth) => truth === 'fails') ? 'fails' : 'not known';
};

type Range = { readonly from: number; readonly to: number } | { readonly options: readonly string[] };

const readRange = ({ value, sure }: Observation): Range => {
  const u = sure.kind === 'measured' ? sure.u : 0;
  if (value.kind === 'measure') return { from: value.value - 2 * u, to: value.value + 2 * u };
  if (value.kind === 'count') return value;
  if (value.kind === 'choice') return { options: [value.option] };
  throw new Error(`nothing is promised of a ${value.kind}`);
};

const factRange = (feature: Feature, fact: Fact): Range => {
  if (fact.kind === 'measure')
    return {
      from: fact.nominal + fact.lower - (feature.wear?.below ?? 0),
      to: fact.nominal + fact.upper + (feature.wear?.above ?? 0),
    };
  if (fact.kind === 'count') return fact;
  if (fact.kind === 'choice') return { options: fact.anyOf };
  throw new Error(`nothing is promised of a ${fact.kind}`);
};

const promised = (promise: TokenPromise, number: string, range: Range): boolean => {
  const meets = (from: number, to: number) => 'from' in range && range.from <= to && from <= range.to;
  switch (promise.kind) {
    case 'measure': {
      const size = promise.of[number] as number;
      return meets(size - promise.within, size + promise.within);
    }
    case 'number':
      return meets(Number(number) - promise.within, Number(number) + promise.within);
    case 'count': {
      const count = promise.of[number] as number;
      return meets(count, count);
    }
    case 'choice':
      return 'options' in range && (promise.of[number] ?? []).some((option) => range.options.includes(option));
  }
};
