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
import { partOfRow, rowsOf } from './machined.ts';

import { numberNotListed, type PlateNotListed, plateNotListed } from './reading-plate.ts';

/**
 * Wherever this speaks of parts it means the ways a part may be found, each a row of its own (`machined.ts`): a part without operations is one row.
 *
 * A second reading of reasoner/SPEC.md, written from the page alone and sharing no code with the reasoner:
 * what each observation removes, which pairs fail at each joint, and what every name of the ladder demands.
 * Worlds, statuses, conflicts and swaps are then asked of clingo (ask-clingo.ts).
 *
 * Where the page can be read in two ways, the reading taken is said at its place, beside the words "read here":
 * the role of a part that is both listed and a successor; two different marks on one part; a doubtful slot of an open name.
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
  /** Names that say only that the unit is one of several (N4): by the demand that is their own, and those of the several. */
  readonly several: readonly { readonly name: string; readonly own: number; readonly of: readonly number[] }[];
  /** A candidate of the plate's slot that is no listed part (O5). */
  readonly plate: PlateNotListed | null;
  /** Names formed only where none of some others is possible: parts of a family, of no one model. */
  readonly noneOf: readonly { readonly name: string; readonly own: number; readonly of: readonly number[] }[];
}

/** One set of demands, and every name that makes it; names are told apart by meaning: rung, model or family, origin of each housing. */
export interface Demand {
  readonly names: readonly string[];
  /** By slot demanded, the parts that belong there. */
  readonly allowed: ReadonlyMap<SlotId, ReadonlySet<PartId>>;
  /** Slots demanded whose list is open-ended (A7), with the parts that do not belong there all the same. */
  readonly open: ReadonlyMap<SlotId, ReadonlySet<PartId>>;
  /** Whether it can stand at all: it asks something of the core, or is the list of parts. */
  readonly mayStand: boolean;
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
  const bySlot = new Map(
    slots.map((slot) => [slot, atlas.parts.filter((part) => part.slot === slot).flatMap((part) => rowsOf(atlas, part))]),
  );
  const partsOf = (slot: SlotId) => bySlot.get(slot) ?? [];
  const plate = plateNotListed(atlas, sheet, disagrees);
  const isPlate = (slot: SlotId) => atlas.slots.some(({ id, group }) => id === slot && group === 'plate');
  const rows = new Map<PartId, PartId[]>([[numberNotListed, [numberNotListed]]]);
  for (const { id } of [...bySlot.values()].flat()) rows.set(partOfRow(id), [...(rows.get(partOfRow(id)) ?? []), id]);
  const inRows = (of: ReadonlyMap<SlotId, ReadonlySet<PartId>>) =>
    new Map([...of].map(([slot, parts]) => [slot, new Set([...parts].flatMap((part) => rows.get(part) ?? []))]));
  const { demands, ...names } = gathered(namesOf(atlas, given.names ?? (() => true), plate));
  return {
    slots,
    plate,
    // It agrees with everything seen and fits whatever it is on: no observation excludes it and no joint fails with it.
    parts: new Map(
      slots.map((slot) => [slot, [...partsOf(slot).map((part) => part.id), ...(plate !== null && isPlate(slot) ? [numberNotListed] : [])]]),
    ),
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
    demands: demands.map((demand) => ({ ...demand, allowed: inRows(demand.allowed), open: inRows(demand.open) })),
    ...names,
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
export const disagrees = (observation: Observation, feature: Feature, fact: Fact | undefined): boolean => {
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

/** Whether a part belongs in a slot of a name (A7). */
type Membership = 'belongs' | 'fails' | 'not known';
type Asks = ReadonlyMap<SlotId, (part: PartId) => Membership>;

interface Named {
  readonly name: string;
  readonly asks: Asks;
  /** Names of which this is any one, or of which none may be possible. */
  readonly anyOf?: readonly string[];
  readonly noneOf?: readonly string[];
  readonly allowed: Map<SlotId, Set<PartId>>;
  readonly open: Map<SlotId, Set<PartId>>;
  readonly mayStand: boolean;
}

/** N4, the table. */
const namesOf = (atlas: Atlas, asked: (meaning: string) => boolean, plate: PlateNotListed | null): Named[] => {
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
  const makerOf = (model: Model) => {
    const maker = atlas.families.find((family) => family.id === model.family)?.maker ?? null;
    return maker === null ? null : (atlas.makers.find((candidate) => candidate.id === maker) ?? null);
  };
  const groupOf = new Map(atlas.slots.map((slot) => [slot.id, slot.group]));
  const slots = atlas.slots.map((slot) => slot.id);
  const lists = (model: Model, slot: SlotId, roles: readonly string[] = anyRole) =>
    model.allowed.some((entry) => entry.slot === slot && roles.includes(entry.role));
  const speaksFor = (model: Model, slot: SlotId) => groupOf.get(slot) !== 'plate' || makerOf(model)?.plateRule === true;
  const naming = (model: Model, slot: SlotId) => lists(model, slot, ['names', 'option']) && speaksFor(model, slot);
  const silent = (model: Model, slot: SlotId) => groupOf.get(slot) !== 'plate' && !lists(model, slot);
  const listOpenAt = (model: Model, slot: SlotId) => silent(model, slot) || model.openEnded?.includes(slot) === true;
  const mayBePlateOf = (model: Model, slot: SlotId) => groupOf.get(slot) === 'plate' && plate?.mayBe.has(model.id) === true;
  const openAt = (model: Model, slot: SlotId) => listOpenAt(model, slot) || mayBePlateOf(model, slot);
  const membership =
    (model: Model, slot: SlotId, roles: readonly string[] = anyRole) =>
    (part: PartId): Membership => {
      if (part === numberNotListed) return mayBePlateOf(model, slot) ? 'not known' : 'fails';
      const role = roleOf(model, part);
      if (role !== null) return roles.includes(role) ? 'belongs' : 'fails';
      return listOpenAt(model, slot) ? 'not known' : 'fails';
    };
  const asking = (model: Model, which: readonly SlotId[], roles: (slot: SlotId) => readonly string[] = () => anyRole): Asks =>
    new Map(which.map((slot) => [slot, membership(model, slot, roles(slot))]));
  const housings = slots.filter((slot) => groupOf.get(slot) === 'housing');
  const inCore = (slot: SlotId) => groupOf.get(slot) === 'core';
  const decisive = (model: Model) => slots.filter((slot) => naming(model, slot) || silent(model, slot));
  const coreOf = (model: Model) => asking(model, decisive(model).filter(inCore));

  const answer: Named[] = [];
  const add = (name: string, asks: Asks, more: Pick<Named, 'anyOf' | 'noneOf'> = {}) => {
    if (!asked(name)) return;
    const partsIn = (slot: SlotId) => [
      ...atlas.parts.filter((part) => part.slot === slot).map((part) => part.id),
      ...(plate !== null && groupOf.get(slot) === 'plate' ? [numberNotListed] : []),
    ];
    const having = (slot: SlotId, wanted: Membership) => new Set(partsIn(slot).filter((part) => asks.get(slot)?.(part) === wanted));
    const open = [...asks.keys()].filter((slot) => opens.get(asks)?.has(slot));
    answer.push({
      name,
      asks,
      ...more,
      allowed: new Map([...asks.keys()].map((slot) => [slot, having(slot, 'belongs')])),
      open: new Map(open.map((slot) => [slot, having(slot, 'fails')])),
      mayStand: name === 'parts' || [...asks.keys()].some(inCore),
    });
  };
  // Whether a list is open-ended is no matter of the parts there happen to be, so it is noted beside the memberships.
  const opens = new WeakMap<Asks, ReadonlySet<SlotId>>();
  const noted = (asks: Asks, isOpen: (slot: SlotId) => boolean): Asks => {
    opens.set(asks, new Set([...asks.keys()].filter(isOpen)));
    return asks;
  };
  const ofModel = (model: Model, asks: Asks) => noted(asks, (slot) => openAt(model, slot));
  /** One of several, not said which. */
  const anyOne = (of: readonly Asks[]): Asks => {
    const common = slots.filter((slot) => of.every((asks) => asks.has(slot)));
    const asks: Asks = new Map(
      common.map((slot) => [
        slot,
        (part: PartId): Membership => {
          const each = of.map((one) => one.get(slot)?.(part));
          return each.includes('belongs') ? 'belongs' : each.includes('not known') ? 'not known' : 'fails';
        },
      ]),
    );
    return noted(asks, (slot) => of.some((one) => opens.get(one)?.has(slot)));
  };

  add(
    'parts',
    noted(new Map(), () => false),
  );
  const named = atlas.models.filter((model) => makerOf(model) !== null);
  const makersFamilies = atlas.families.filter((family) => family.maker !== null);
  const service = (model: Model) => ofModel(model, asking(model, decisive(model)));
  const plateless = (model: Model) =>
    ofModel(
      model,
      asking(
        model,
        decisive(model).filter((slot) => groupOf.get(slot) !== 'plate'),
      ),
    );
  const plated = (model: Model) => slots.some((slot) => groupOf.get(slot) === 'plate' && naming(model, slot));
  const core = (model: Model) => ofModel(model, coreOf(model));
  for (const model of named) {
    const listed = slots.filter((slot) => (lists(model, slot) && speaksFor(model, slot)) || silent(model, slot));
    const exact = (slot: SlotId) => (naming(model, slot) ? ['names'] : anyRole);
    add(`model ${model.id}`, ofModel(model, asking(model, listed, exact)));
    add(`model with options ${model.id}`, ofModel(model, asking(model, listed)));
    add(`model with service parts replaced ${model.id}`, service(model));
    if (plated(model)) add(`all parts ${model.id}`, plateless(model));
  }

  const coreDemand = (model: Model) =>
    [...coreOf(model).keys()]
      .map(
        (slot) =>
          `${slot}${openAt(model, slot) ? '…' : ''}=${atlas.parts
            .filter((part) => part.slot === slot && roleOf(model, part.id) !== null)
            .map((part) => part.id)
            .sort()}`,
      )
      .join(';');
  const anyOwn = (models: readonly Model[], slot: SlotId): Asks => anyOne(models.map((model) => ofModel(model, asking(model, [slot]))));
  for (const models of sharedCores(named, makerOf, coreDemand)) {
    for (const origins of origin(housings, ['own', ...makersFamilies.map((family) => family.id), 'unidentified'])) {
      const from = [...origins.values()];
      if (origins.size === 0 || from.every((each) => each === 'own')) continue;
      const rung = from.includes('unidentified') ? 'core' : 'hybrid';
      // Housings called its own are of one and the same model.
      const owners = from.filter((each) => each === 'own').length > 1 ? models.map((model) => [model]) : [models];
      for (const own of owners) {
        const asks = new Map(core(models[0] as Model));
        const open = new Set(opensOf(models[0] as Model, openAt, [...asks.keys()]));
        for (const [slot, each] of origins) {
          if (each === 'unidentified') continue;
          const ask = anyOwn(each === 'own' ? own : atlas.models.filter((model) => model.family === each), slot);
          asks.set(slot, ask.get(slot) as (part: PartId) => Membership);
          if (opens.get(ask)?.has(slot)) open.add(slot);
        }
        const whose = own
          .map((model) => model.id)
          .sort()
          .join('+');
        add(
          `${rung} ${whose}${described(origins)}`,
          noted(asks, (slot) => open.has(slot)),
        );
      }
    }
  }

  for (const model of atlas.models.filter((candidate) => makerOf(candidate) === null)) add(`pattern core ${model.id}`, core(model));
  const unidentified = described(new Map(housings.map((slot) => [slot, 'unidentified'])));
  const groups = sharedCores(named, makerOf, coreDemand);
  for (const family of makersFamilies) {
    const models = atlas.models.filter((model) => model.family === family.id);
    if (models.length === 0) continue;
    const serviceNames = models.map((model) => `model with service parts replaced ${model.id}`);
    const platelessNames = models.map((model) =>
      plated(model) ? `all parts ${model.id}` : `model with service parts replaced ${model.id}`,
    );
    const coreNames = groups
      .filter((group) => group.some((model) => model.family === family.id))
      .map(
        (group) =>
          `core ${group
            .map((model) => model.id)
            .sort()
            .join('+')}${unidentified}`,
      );
    add(`family ${family.id} whole`, anyOne(models.map(service)), { anyOf: serviceNames });
    add(`family ${family.id} core`, anyOne(models.map(core)), { anyOf: coreNames });
    add(`family parts ${family.id}`, anyOne(models.map(plateless)), { noneOf: platelessNames });
    const patterns = atlas.models.filter(
      (model) => makerOf(model) === null && atlas.models.find((each) => each.id === model.patternOf)?.family === family.id,
    );
    if (patterns.length > 0)
      add(`pattern family ${family.id}`, anyOne(patterns.map(core)), { anyOf: patterns.map((model) => `pattern core ${model.id}`) });
  }
  return answer;
};

const anyRole = ['names', 'option', 'service'];

const opensOf = (model: Model, openAt: (model: Model, slot: SlotId) => boolean, slots: readonly SlotId[]): SlotId[] =>
  slots.filter((slot) => openAt(model, slot));

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

/** Every way to say where each housing is from. */
const origin = (housings: readonly SlotId[], from: readonly string[]): Map<SlotId, string>[] =>
  housings.reduce<Map<SlotId, string>[]>(
    (ways, slot) => ways.flatMap((way) => from.map((each) => new Map([...way, [slot, each]]))),
    [new Map()],
  );

const gathered = (names: readonly Named[]): Pick<Question, 'demands' | 'several' | 'noneOf'> => {
  const byDemand = new Map<string, Demand & { names: string[] }>();
  const places = new Map<string, number>();
  const told = (sets: ReadonlyMap<SlotId, ReadonlySet<PartId>>) =>
    [...sets]
      .map(([slot, parts]) => `${slot}=${[...parts].sort().join(',')}`)
      .sort()
      .join(';');
  for (const { name, allowed, open, mayStand, anyOf, noneOf } of names) {
    // What depends on other names besides is never taken for a name that only demands the same.
    const key = `${told(allowed)} | ${told(open)} | ${mayStand} | ${anyOf !== undefined || noneOf !== undefined ? name : ''}`;
    const before = byDemand.get(key);
    if (before === undefined) byDemand.set(key, { names: [name], allowed, open, mayStand });
    else before.names.push(name);
    places.set(name, [...byDemand.keys()].indexOf(key));
  }
  const related = (which: 'anyOf' | 'noneOf') =>
    names.flatMap((each) => {
      const of = each[which]?.flatMap((name) => places.get(name) ?? []);
      return of === undefined ? [] : [{ name: each.name, own: places.get(each.name) as number, of }];
    });
  return { demands: [...byDemand.values()], several: related('anyOf'), noneOf: related('noneOf') };
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
