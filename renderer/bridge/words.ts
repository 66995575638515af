import type { Vocabulary } from '../../db/answers.ts';
import type {
  FamilyId,
  Feature,
  FeatureId,
  Joint,
  JointId,
  Maker,
  MakerId,
  ModelId,
  PortId,
  Slot,
  SlotId,
  SourceId,
  StageId,
} from '../../reasoner/index.ts';
import type { LengthUnit } from '../../reasoner/plain/units.ts';

/**
 * The vocabulary with an index over each of its lists. Names fall back to the id itself: a sheet written for
 * another atlas must still be readable while the desk says what is wrong with it.
 */
export interface Words {
  readonly vocabulary: Vocabulary;
  /** In what lengths are said. */
  readonly unit: LengthUnit;
  readonly slots: readonly Slot[];
  slot(id: SlotId): Slot | undefined;
  slotName(id: SlotId): string;
  feature(id: FeatureId): Feature | undefined;
  featureName(id: FeatureId): string;
  /** Features that can be observed on parts of this slot, earliest strip-down stage first, then cheapest. */
  featuresOf(slot: SlotId): readonly Feature[];
  joint(id: JointId): Joint | undefined;
  jointName(id: JointId): string;
  /** The two slots a joint holds together. */
  slotsOf(joint: JointId): readonly SlotId[];
  stageName(id: StageId): string;
  maker(id: MakerId): Omit<Maker, 'grammar'> | undefined;
  makerName(id: MakerId | null): string;
  familyName(id: FamilyId): string;
  familyMaker(id: FamilyId): MakerId | null;
  /** In the order of the atlas. */
  modelsOf(family: FamilyId): readonly Vocabulary['models'][number][];
  modelName(id: ModelId): string;
  sourceTitle(id: SourceId): string;
  /** Whether invented parts and others stand in one atlas, so that each has to be told from the other. */
  readonly mixed: boolean;
  /** Whether a source says that what rests on it is made up. */
  isInvented(source: SourceId): boolean;
}

const indexed = <K extends string, T extends { readonly id: K }>(list: readonly T[]): ReadonlyMap<K, T> =>
  new Map(list.map((item) => [item.id, item]));

export function wordsOf(vocabulary: Vocabulary, unit: LengthUnit = 'mm'): Words {
  const slots = indexed<SlotId, Slot>(vocabulary.slots);
  const features = indexed<FeatureId, Feature>(vocabulary.features);
  const joints = indexed<JointId, Joint>(vocabulary.joints);
  const makers = indexed<MakerId, Omit<Maker, 'grammar'>>(vocabulary.makers);
  const stages = new Map(vocabulary.stages.map((stage, order) => [stage.id, { ...stage, order }]));
  const families = new Map(vocabulary.families.map((family) => [family.id, family]));
  const models = new Map(vocabulary.models.map((model) => [model.id, model.name]));
  const byFamily = new Map<FamilyId, Vocabulary['models'][number][]>();
  for (const model of vocabulary.models) {
    const own = byFamily.get(model.family);
    if (own === undefined) byFamily.set(model.family, [model]);
    else own.push(model);
  }
  const sources = new Map(vocabulary.sources.map((source) => [source.id, source]));
  const slotOfPort = new Map<PortId, SlotId>(vocabulary.ports.map((port) => [port.id, port.slot]));
  const stageOrder = (feature: Feature) => stages.get(feature.stage)?.order ?? stages.size;
  const bySlot = new Map<SlotId, readonly Feature[]>(
    vocabulary.slots.map((slot) => [
      slot.id,
      vocabulary.features
        .filter((feature) => feature.slot === slot.id)
        .sort((a, b) => stageOrder(a) - stageOrder(b) || a.minutes - b.minutes || a.name.localeCompare(b.name)),
    ]),
  );
  return {
    vocabulary,
    unit,
    slots: vocabulary.slots,
    slot: (id) => slots.get(id),
    slotName: (id) => slots.get(id)?.name ?? id,
    feature: (id) => features.get(id),
    featureName: (id) => features.get(id)?.name ?? id,
    featuresOf: (slot) => bySlot.get(slot) ?? [],
    joint: (id) => joints.get(id),
    jointName: (id) => joints.get(id)?.name ?? id,
    slotsOf: (id) => {
      const joint = joints.get(id);
      if (joint === undefined) return [];
      return [slotOfPort.get(joint.a), slotOfPort.get(joint.b)].filter((slot) => slot !== undefined);
    },
    stageName: (id) => stages.get(id)?.name ?? id,
    maker: (id) => makers.get(id),
    makerName: (id) => (id === null ? 'no maker’s name' : (makers.get(id)?.name ?? id)),
    familyName: (id) => families.get(id)?.name ?? id,
    familyMaker: (id) => families.get(id)?.maker ?? null,
    modelsOf: (family) => byFamily.get(family) ?? [],
    modelName: (id) => models.get(id) ?? id,
    sourceTitle: (id) => sources.get(id)?.title ?? id,
    mixed: vocabulary.packs.some((pack) => pack.invented && pack.parts) && vocabulary.packs.some((pack) => !pack.invented),
    isInvented: (id) => sources.get(id)?.kind === 'invented',
  };
}
