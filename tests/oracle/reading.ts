import type {
  Atlas,
  Fact,
  Feature,
  FitRule,
  Joint,
  JointId,
  Model,
  Observation,
  Part,
  PartId,
  Sheet,
  SlotId,
} from '../../reasoner/index.ts';

/**
 * A second reading of reasoner/SPEC.md, written from the page alone and sharing no code with the reasoner:
 * what each observation removes, which pairs fail at each joint, and what every name of the ladder demands.
 * Worlds, statuses, conflicts and swaps are then asked of clingo (ask-clingo.ts).
 *
 * Where the page can be read in two ways, the reading taken is said at its place, beside the words "read here":
 * the role of a part that is both listed and a successor; the own housings of a core that several models share;
 * two different marks on one part; a doubtful slot of an open name; a swap that settles a doubt elsewhere.
 * And one the page decides as it stands, though hardly as meant: a family whose models have no naming slot in common
 * is a name that demands nothing, and so stands of any unit.
 */
export interface Question {
  readonly slots: readonly SlotId[];
  readonly parts: ReadonlyMap<SlotId, readonly PartId[]>;
  /** Observations that are not told, with the listed parts of their slot they disagree with (O1–O3). */
  readonly observations: readonly { readonly id: string; readonly slot: SlotId; readonly excludes: ReadonlySet<PartId> }[];
  readonly absent: ReadonlySet<SlotId>;
  readonly joints: readonly {
    readonly id: JointId;
    readonly a: SlotId;
    readonly b: SlotId;
    readonly fails: readonly (readonly [PartId, PartId])[];
  }[];
  readonly demands: readonly Demand[];
}

/** One set of demands, and every name that makes it; names are told apart by meaning: rung, model or family, origin of each housing. */
export interface Demand {
  readonly names: readonly string[];
  readonly allowed: ReadonlyMap<SlotId, ReadonlySet<PartId>>;
}

export interface Given {
  /** Whether two parts cannot meet at a joint; read from the rules unless given. */
  readonly willNotFit?: (joint: Joint, a: Part, b: Part) => boolean;
  /** Which names are asked about; all unless given. */
  readonly names?: (meaning: string) => boolean;
}

export const readQuestion = (atlas: Atlas, sheet: Sheet, given: Given = {}): Question => {
  const cannot = given.willNotFit ?? ((joint, a, b) => joint.rules.some((rule) => willNotFit(rule, a, b)));
  const slots = atlas.slots.map((slot) => slot.id);
  const features = new Map(atlas.features.map((feature) => [feature.id, feature]));
  const bySlot = new Map(slots.map((slot) => [slot, atlas.parts.filter((part) => part.slot === slot)]));
  const partsOf = (slot: SlotId) => bySlot.get(slot) ?? [];
  return {
    slots,
    parts: new Map(slots.map((slot) => [slot, partsOf(slot).map((part) => part.id)])),
    observations: sheet.observations
      .filter((observation) => observation.sure.kind !== 'told')
      .map((observation) => ({
        id: observation.id,
        slot: observation.slot,
        excludes: new Set(
          partsOf(observation.slot)
            .filter((part) => disagrees(observation, features.get(observation.feature) as Feature, part.facts[observation.feature]))
            .map((part) => part.id),
        ),
      })),
    absent: new Set(sheet.absent),
    joints: atlas.joints.map((joint) => {
      const slotOf = (port: string) => atlas.ports.find((candidate) => candidate.id === port)?.slot as SlotId;
      const [a, b] = [slotOf(joint.a), slotOf(joint.b)];
      return {
        id: joint.id,
        a,
        b,
        fails: partsOf(a).flatMap((p) =>
          partsOf(b)
            .filter((q) => cannot(joint, p, q))
            .map((q) => [p.id, q.id] as const),
        ),
      };
    }),
    demands: gathered(namesOf(atlas, given.names ?? (() => true))),
  };
};

/** O6: pairs of observations of one feature, neither told, that cannot both hold of any part. */
export const contradictions = (sheet: Sheet): string[] => {
  const found: string[] = [];
  const firm = sheet.observations.filter((observation) => observation.sure.kind !== 'told');
  for (const [i, first] of firm.entries()) {
    for (const second of firm.slice(i + 1)) {
      if (first.feature === second.feature && !compatible(first, second)) found.push([first.id, second.id].sort().join(' '));
    }
  }
  return found.sort();
};

const compatible = ({ value: p, sure: pSure }: Observation, { value: q, sure: qSure }: Observation): boolean => {
  if (p.kind === 'count' && q.kind === 'count') return p.from <= q.to && q.from <= p.to;
  if (p.kind === 'measure' && q.kind === 'measure') return Math.abs(p.value - q.value) <= 2 * uncertainty(pSure) + 2 * uncertainty(qSure);
  if (p.kind === 'choice' && q.kind === 'choice') return p.option === q.option;
  if (p.kind === 'presence' && q.kind === 'presence') return p.present === q.present;
  // A part bears one of the letters it may bear; so two different marks, like two different choices, are read here as contradictory.
  if (p.kind === 'mark' && q.kind === 'mark') return lettersOf(p.text) === lettersOf(q.text);
  throw new Error('two observations of one feature are of different kinds');
};

const uncertainty = (sure: Observation['sure']): number => (sure.kind === 'measured' ? sure.u : 0);

const lettersOf = (text: string | null): string | null => (text === null ? null : text.toLowerCase().replace(/[^a-z0-9]/g, ''));

/** O2, O3. */
const disagrees = (observation: Observation, feature: Feature, fact: Fact | undefined): boolean => {
  if (fact === undefined || fact.kind === 'not known') return false;
  const { value } = observation;
  if (value.kind === 'measure' && fact.kind === 'measure') {
    const u = uncertainty(observation.sure);
    const { below, above } = feature.wear ?? { below: 0, above: 0 };
    return value.value + 2 * u < fact.nominal + fact.lower - below || value.value - 2 * u > fact.nominal + fact.upper + above;
  }
  if (value.kind === 'count' && fact.kind === 'count') return value.to < fact.from || value.from > fact.to;
  if (value.kind === 'choice' && fact.kind === 'choice') return !fact.anyOf.includes(value.option);
  if (value.kind === 'presence' && fact.kind === 'presence') return value.present !== fact.present;
  if (value.kind === 'mark' && fact.kind === 'mark') {
    return value.text === null ? !fact.blank : !fact.anyOf.some((text) => lettersOf(text) === lettersOf(value.text));
  }
  throw new Error(`an observation of kind ${value.kind} of a fact of kind ${fact.kind}`);
};

/** J1 for the rule kinds the made-up atlases use. A missing dimension never removes a pair. */
const willNotFit = (rule: FitRule, a: Part, b: Part): boolean => {
  const known = (feature: string): Fact | undefined => {
    const fact = (a.facts as Record<string, Fact>)[feature] ?? (b.facts as Record<string, Fact>)[feature];
    return fact?.kind === 'not known' ? undefined : fact;
  };
  switch (rule.kind) {
    case 'same':
    case 'clamp profile': {
      const [p, q] = [known(rule.a), known(rule.b)];
      return p?.kind === 'choice' && q?.kind === 'choice' && !p.anyOf.some((option) => q.anyOf.includes(option));
    }
    case 'pilot': {
      const [spigot, recess] = [known(rule.spigot), known(rule.recess)];
      if (spigot?.kind !== 'measure' || recess?.kind !== 'measure') return false;
      const least = recess.nominal + recess.lower - (spigot.nominal + spigot.upper);
      const greatest = recess.nominal + recess.upper - (spigot.nominal + spigot.lower);
      return greatest < rule.min || least > rule.max;
    }
    default:
      throw new Error(`the made-up atlases have no rule of kind ${rule.kind}`);
  }
};

type Named = { readonly name: string; readonly allowed: Map<SlotId, Set<PartId>> };

/** N4, the table. */
const namesOf = (atlas: Atlas, asked: (meaning: string) => boolean): Named[] => {
  const before = new Map(atlas.parts.map((part) => [part.id, part.supersedes]));
  /**
   * The role in which a part may sit in a slot of a model, or null. The page does not say what holds where a part is listed and also
   * supersedes a listed one: read here as its own listing first, then that of the nearest part it supersedes.
   */
  const roleOf = (model: Model, part: PartId): string | null => {
    for (let at: PartId | undefined = part; at !== undefined; at = before.get(at)) {
      const entry = model.allowed.find((candidate) => candidate.part === at);
      if (entry !== undefined) return entry.role;
    }
    return null;
  };
  const maySit = (model: Model, slot: SlotId, roles: readonly string[]): Set<PartId> =>
    new Set(atlas.parts.filter((part) => part.slot === slot && roles.includes(roleOf(model, part.id) ?? '')).map((part) => part.id));
  const anyRole = ['names', 'option', 'service'];
  const roleFree = (model: Model, slot: SlotId) => maySit(model, slot, anyRole);
  const makerOf = (model: Model) => {
    const maker = atlas.families.find((family) => family.id === model.family)?.maker ?? null;
    return maker === null ? null : (atlas.makers.find((candidate) => candidate.id === maker) ?? null);
  };
  const groupOf = new Map(atlas.slots.map((slot) => [slot.id, slot.group]));
  const lists = (model: Model, slot: SlotId, roles: readonly string[] = anyRole) =>
    model.allowed.some((entry) => entry.slot === slot && roles.includes(entry.role));
  const speaksFor = (model: Model, slot: SlotId) => groupOf.get(slot) !== 'plate' || makerOf(model)?.plateRule === true;
  const namingSlots = (model: Model) =>
    atlas.slots.map((slot) => slot.id).filter((slot) => lists(model, slot, ['names', 'option']) && speaksFor(model, slot));
  const housings = atlas.slots.filter((slot) => slot.group === 'housing').map((slot) => slot.id);
  const inCore = (slot: SlotId) => groupOf.get(slot) === 'core';

  const named = atlas.models.filter((model) => makerOf(model) !== null);
  const makersFamilies = atlas.families.filter((family) => family.maker !== null);
  const coreSlots = ([model]: readonly Model[]) => (model === undefined ? [] : namingSlots(model).filter(inCore));
  const coreDemand = (model: Model) =>
    coreSlots([model])
      .map((slot) => `${slot}=${[...roleFree(model, slot)].sort()}`)
      .join(';');
  const answer: Named[] = [{ name: 'parts', allowed: new Map() }];
  const add = (name: string, slots: readonly SlotId[], allowed: (slot: SlotId) => Set<PartId>) => {
    if (asked(name)) answer.push({ name, allowed: new Map(slots.map((slot) => [slot, allowed(slot)])) });
  };

  for (const model of named) {
    const listed = atlas.slots.map((slot) => slot.id).filter((slot) => lists(model, slot) && speaksFor(model, slot));
    add(`model ${model.id}`, listed, (slot) =>
      lists(model, slot, ['names', 'option']) ? maySit(model, slot, ['names']) : roleFree(model, slot),
    );
    add(`model with options ${model.id}`, listed, (slot) => roleFree(model, slot));
    add(`model with service parts replaced ${model.id}`, namingSlots(model), (slot) => roleFree(model, slot));
  }

  // The page says that cores with equal rules are one name; what that name's own housings are it leaves open.
  // Read here as any housing that is one of its models' own, which for two housings may be of two different models.
  for (const models of sharedCores(named, makerOf, coreDemand)) {
    for (const origins of origin(housings, ['own', ...makersFamilies.map((family) => family.id), 'unidentified'])) {
      if (origins.size === 0) continue;
      const rung = [...origins.values()].includes('unidentified') ? 'core' : 'hybrid';
      const held = housings.filter((slot) => origins.get(slot) !== 'unidentified');
      add(
        `${rung} ${models
          .map((model) => model.id)
          .sort()
          .join('+')}${described(origins)}`,
        [...coreSlots(models), ...held],
        (slot) => {
          const from = origins.get(slot);
          const of = from === undefined || from === 'own' ? models : atlas.models.filter((model) => model.family === from);
          return union(of.map((model) => roleFree(model, slot)));
        },
      );
    }
  }

  for (const family of atlas.families) {
    const models = atlas.models.filter((model) => model.family === family.id);
    if (family.maker === null || models.length === 0) continue;
    const common = models.map(namingSlots).reduce((left, right) => left.filter((slot) => right.includes(slot)));
    const allowed = (slot: SlotId) => union(models.map((model) => roleFree(model, slot)));
    add(`family ${family.id} whole`, common, allowed);
    add(`family ${family.id} core`, common.filter(inCore), allowed);
  }

  for (const model of atlas.models.filter((candidate) => makerOf(candidate) === null)) {
    add(
      `pattern core ${model.id}`,
      atlas.slots.map((slot) => slot.id).filter((slot) => inCore(slot) && lists(model, slot, ['names', 'option'])),
      (slot) => roleFree(model, slot),
    );
  }
  return answer;
};

/** Models of one maker whose cores make the same demands. */
const sharedCores = (
  models: readonly Model[],
  makerOf: (model: Model) => { readonly id: string } | null,
  demand: (model: Model) => string,
): Model[][] => {
  const groups = new Map<string, Model[]>();
  for (const model of models) {
    const key = `${makerOf(model)?.id} ${demand(model)}`;
    groups.set(key, [...(groups.get(key) ?? []), model]);
  }
  return [...groups.values()];
};

const described = (origins: ReadonlyMap<string, string>): string => [...origins].map(([slot, from]) => ` ${slot}:${from}`).join('');

const union = <T>(sets: readonly ReadonlySet<T>[]): Set<T> => new Set(sets.flatMap((set) => [...set]));

/** Every way to say where each housing is from. */
const origin = (housings: readonly SlotId[], from: readonly string[]): Map<SlotId, string>[] =>
  housings.reduce<Map<SlotId, string>[]>(
    (ways, slot) => ways.flatMap((way) => from.map((each) => new Map([...way, [slot, each]]))),
    [new Map()],
  );

const gathered = (names: readonly Named[]): Demand[] => {
  const byDemand = new Map<string, { names: string[]; allowed: Map<SlotId, Set<PartId>> }>();
  for (const { name, allowed } of names) {
    const key = [...allowed]
      .map(([slot, parts]) => `${slot}=${[...parts].sort().join(',')}`)
      .sort()
      .join(';');
    const before = byDemand.get(key);
    if (before === undefined) byDemand.set(key, { names: [name], allowed });
    else before.names.push(name);
  }
  return [...byDemand.values()];
};

/** S1: minutes of every strip-down stage a set of slots needs, each once with all that must come before it, and each slot's exchange. */
export const minutesToExchange = (atlas: Atlas, slots: readonly SlotId[]): number => {
  const needed = new Set<string>();
  const reach = (stage: string): void => {
    if (needed.has(stage)) return;
    needed.add(stage);
    for (const before of atlas.stages.find((candidate) => candidate.id === stage)?.after ?? []) reach(before);
  };
  const taken = atlas.slots.filter((slot) => slots.includes(slot.id));
  for (const slot of taken) reach(slot.stage);
  const stripping = atlas.stages.filter((stage) => needed.has(stage.id)).reduce((sum, stage) => sum + stage.minutes, 0);
  return stripping + taken.reduce((sum, slot) => sum + slot.swapMinutes, 0);
};
