import type { Atlas, Family, FamilyId, Feature, FeatureId, Joint, Maker, Part, PartId, SlotId } from '../../../reasoner/index.ts';
import type { PackModel } from '../../atlas/lists.ts';
import { groupBy } from '../../plain/group-by.ts';
import type { Asked } from '../../read/asked.ts';
import type { Place } from '../../read/faults.ts';
import type { FilesRead } from '../read.ts';
import type { Warning } from '../warnings.ts';

/** A rule of what is suspicious of a pack: a pure function of what was read and of the atlas beside it. */
export interface Finding {
  /** What `PackWarning.about` says. */
  readonly about: string;
  /** Files the rule says nothing without; where one of them has a fault, the rule is not asked. */
  readonly rests: readonly string[];
  readonly find: (ground: Ground) => Iterable<Warning>;
}

export interface GroundModel extends PackModel {
  /** Its place in the pack; null where it is another pack's. */
  readonly index: number | null;
}

/** The pack and the atlas beside it together, as the rules ask of them. */
export interface Ground {
  readonly read: FilesRead;
  readonly asked: Asked;
  readonly beside: Atlas;
  /** The parts of the pack. */
  readonly own: readonly Part[];
  /** Those, and then those of other packs. */
  readonly parts: readonly Part[];
  readonly part: (id: string) => Part | undefined;
  readonly isOwn: (part: Part) => boolean;
  /** The models of the pack, and then those of others. */
  readonly models: readonly GroundModel[];
  readonly features: ReadonlyMap<FeatureId, Feature>;
  readonly joints: readonly Joint[];
  readonly family: (id: string) => Family | undefined;
  readonly maker: (id: string) => Maker | undefined;
  readonly makers: readonly Maker[];
  /** What a slot is called. */
  readonly slotName: (id: string) => string;
  readonly slotOfPort: (port: string) => SlotId | undefined;
  /** By slot the parts that may sit in a model: those listed, and those that supersede one of them, in any number of steps. */
  readonly seatsOf: (model: string) => ReadonlyMap<SlotId, readonly Part[]>;
  /** The families in a model of which a part may sit. */
  readonly familiesOf: (part: PartId) => ReadonlySet<FamilyId>;
  /** What is the same of a part and of all it supersedes or is superseded by. */
  readonly lineOf: (part: Part) => string;
  readonly at: {
    readonly part: (part: string, column: string) => Place;
    readonly fact: (part: string, feature: string, column: string) => Place;
    readonly entry: FilesRead['placeOf'];
  };
}

export const groundOf = (read: FilesRead, asked: Asked): Ground => {
  const { lists, parts: own, rows, placeOf } = read;
  const { files, beside, allowed, allowedBeside, find } = lists;
  const mine = new Set<string>(own.map(({ id }) => id));
  const parts = [...own, ...beside.parts.filter(({ id }) => !mine.has(id))];
  const byId = new Map<string, Part>(parts.map((part) => [part.id, part]));
  const successors = groupBy(
    parts.filter((part) => part.supersedes !== undefined),
    (part) => part.supersedes as PartId,
  );
  const ownModels = new Set<string>(files.models.map(({ id }) => id));
  const models: GroundModel[] = [
    ...files.models.map((model, index) => ({ ...model, index })),
    ...beside.models.filter(({ id }) => !ownModels.has(id)).map((model) => ({ ...model, index: null })),
  ];
  const listed = groupBy([...allowed, ...allowedBeside], ({ model }) => model as string);
  const withSuccessors = (ids: readonly PartId[]): readonly Part[] => {
    const sitting = new Set<PartId>(ids);
    for (const id of sitting) for (const { id: later } of successors.get(id) ?? []) sitting.add(later);
    return [...sitting].flatMap((id) => byId.get(id) ?? []);
  };
  const seats = new Map<string, ReadonlyMap<SlotId, readonly Part[]>>();
  const seatsOf: Ground['seatsOf'] = (model) => {
    const kept = seats.get(model);
    if (kept !== undefined) return kept;
    const made = groupBy(withSuccessors((listed.get(model) ?? []).map(({ part }) => part as PartId)), ({ slot }) => slot);
    seats.set(model, made);
    return made;
  };
  const families = new Map<string, Set<FamilyId>>();
  for (const { id, family } of models)
    for (const sitting of seatsOf(id).values())
      for (const part of sitting) {
        const of = families.get(part.id) ?? new Set();
        families.set(part.id, of.add(family));
      }
  const lines = new Map<string, string>();
  const lineOf = (part: Part): string => {
    const walked: Part[] = [];
    let first: Part | undefined = part;
    // A circle is a fault, and ends here all the same.
    for (; first !== undefined && !lines.has(first.id) && !walked.includes(first); first = byId.get(first.supersedes ?? ''))
      walked.push(first);
    const line = (first === undefined ? undefined : lines.get(first.id)) ?? walked.at(-1)?.id ?? part.id;
    for (const one of walked) lines.set(one.id, line);
    return line;
  };
  const once = <T extends { readonly id: string }>(mineFirst: readonly T[], theirs: readonly T[]): T[] => [
    ...new Map([...theirs, ...mineFirst].map((entry) => [entry.id, entry])).values(),
  ];
  return {
    read,
    asked,
    beside,
    own,
    parts,
    part: (id) => byId.get(id),
    isOwn: ({ id }) => mine.has(id),
    models,
    features: new Map(once(files.features, beside.features).map((feature) => [feature.id, feature])),
    joints: once(files.joints, beside.joints),
    family: (id) => find.family.get(id),
    maker: (id) => find.maker.get(id),
    makers: once(files.makers, beside.makers),
    slotName: (id) => find.slot.get(id)?.name ?? id,
    slotOfPort: (port) => find.port.get(port)?.slot,
    seatsOf,
    familiesOf: (part) => families.get(part) ?? none,
    lineOf,
    at: {
      part: (part, column) => ({ file: 'parts.csv', row: rows.part(part), column }),
      fact: (part, feature, column) => ({ file: 'facts.csv', row: rows.fact(part, feature), column }),
      entry: placeOf,
    },
  };
};

const none: ReadonlySet<FamilyId> = new Set();

/** As many names as are said one by one. */
export const fewNames = (names: readonly string[], most = 5): string => {
  const quoted = names.slice(0, names.length > most ? most - 1 : most).map((name) => JSON.stringify(name));
  const more = names.length - quoted.length;
  if (more > 0) quoted.push(`${more} more`);
  return quoted.length < 2 ? quoted.join() : `${quoted.slice(0, -1).join(', ')} and ${quoted.at(-1)}`;
};

/** `46.1 to 54 mm`. */
export const rangeText = (least: number, most: number, feature: Pick<Feature, 'unit'>): string =>
  least === most ? sizeText(least, feature) : `${sizeText(least, feature).replace(/ mm$/, '')} to ${sizeText(most, feature)}`;

/** `57.2 mm`, `12°`. */
export const sizeText = (size: number, { unit }: Pick<Feature, 'unit'>): string => {
  const figure = String(Number(size.toPrecision(8)));
  return unit === 'deg' ? `${figure}°` : `${figure} mm`;
};
