import type { Family, Model, Role } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import { asId, type FamilyId, type MakerId, type ModelId, type NameId } from '../ids.ts';
import type { Rung } from '../verdict/verdict.ts';
import { type Demand, demandsOfAny, type NameRule, type NameWords, nameRule, union } from './name-rule.ts';

/** Where a part may sit, by role, for one slot of one model. */
interface Seats {
  readonly names: ReadonlySet<number>;
  readonly any: ReadonlySet<number>;
  readonly naming: boolean;
  /** Whether the model's list there is not whole; it is not where it lists nothing for a core or housing slot (A7). */
  readonly open: boolean;
}

/** The atlas as far as it is compiled when names are made. */
type Ground = Omit<CompiledAtlas, 'names' | 'housings' | 'familyParts'>;

/** Every name of the ladder (N4) but those formed for a unit: hybrids, and parts of a family of no one model. The list of parts comes last. */
export const compileNames = (atlas: Ground): Pick<CompiledAtlas, 'names' | 'housings' | 'familyParts'> => {
  const seats = seatsOf(atlas);
  const ofModels = new Map(atlas.atlas.models.map((model) => [model.id, namesOfModel(atlas, model, seatsAt(seats, model))]));
  const cores = coresOf(atlas, seats);
  return {
    names: [
      ...[...ofModels.values()].flat(),
      ...cores.map(({ rule }) => rule),
      ...atlas.atlas.families.flatMap((family) => namesOfFamily(atlas, family, ofModels, cores)),
      nameRule(
        { id: 'parts', rung: 'parts', maker: null, text: 'no name: a list of parts', models: [], family: null },
        atlas.slots.map(() => null),
      ),
    ],
    housings: housingOrigins(atlas, seats),
    familyParts: atlas.atlas.families.flatMap((family) => partsOfFamily(atlas, family, ofModels)),
  };
};

const seatsAt = (seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>, model: Model): readonly (Seats | null)[] =>
  seats.get(model.id) as readonly (Seats | null)[];

/** The rungs of one model: three and, under a plate rule, all its parts whatever the plate; of a model with no maker its core alone. */
const namesOfModel = (atlas: Ground, model: Model, of: readonly (Seats | null)[]): NameRule[] => {
  const maker = makerOf(atlas, model);
  const words = { maker, models: [model.id], family: model.family };
  if (maker === null) {
    const pattern = model.patternOf === null ? null : atlas.models.get(model.patternOf);
    const text = `pattern part core (pattern of ${pattern ? fullName(atlas, pattern) : 'no known model'}, no maker’s name)`;
    return [ruleOf({ ...words, id: `pattern:${model.id}`, rung: 'pattern core', text }, of, inCoreOf(atlas, anyWhereNaming))];
  }
  const text = fullName(atlas, model);
  const plated = of.some((seat, slot) => seat?.naming && groupAt(atlas, slot) === 'plate');
  return [
    ruleOf({ ...words, id: `model:${model.id}`, rung: 'model', text }, of, (seat) => (seat.naming ? seat.names : seat.any)),
    ruleOf(
      { ...words, id: `options:${model.id}`, rung: 'model with options', text: `${text}, catalogued options aside` },
      of,
      (seat) => seat.any,
    ),
    ruleOf(
      { ...words, id: serviceNameId(model.id), rung: 'model with service parts replaced', text: `${text}, service parts aside` },
      of,
      anyWhereNaming,
    ),
    ...(plated
      ? [
          ruleOf(
            { ...words, id: allPartsNameId(model.id), rung: 'all parts', maker: null, text: `all parts of ${text}` },
            of,
            (seat, slot) => (groupAt(atlas, slot) === 'plate' ? null : anyWhereNaming(seat, slot)),
          ),
        ]
      : []),
  ];
};

/** Which parts of a seat a name demands; null where it demands none. */
type SeatDemand = (seat: Seats, slot: number) => Demand;

const anyWhereNaming: SeatDemand = (seat) => (seat.naming || isSilentSeat(seat) ? seat.any : null);
const isSilentSeat = ({ open, any }: Seats): boolean => open && any.size === 0;
const groupAt = (atlas: Ground, slot: number) => atlas.slots[slot]?.slot.group;
const inCoreOf =
  (atlas: Ground, demand: SeatDemand): SeatDemand =>
  (seat, slot) =>
    groupAt(atlas, slot) === 'core' ? demand(seat, slot) : null;

const ruleOf = (words: NameWords, of: readonly (Seats | null)[], demand: SeatDemand): NameRule => {
  const demands = of.map((seat, slot) => (seat === null ? null : demand(seat, slot)));
  const open = new Map<number, ReadonlySet<number>>();
  of.forEach((seat, slot) => {
    const allowed = demands[slot] ?? null;
    // Listed there, but in a role this name does not allow: that it does not belong is known.
    if (seat?.open && allowed !== null) open.set(slot, new Set([...seat.any].filter((part) => !allowed.has(part))));
  });
  return nameRule(words, demands, open);
};

interface Core {
  readonly models: readonly Model[];
  readonly rule: NameRule;
}

/** Names of a family, its models not told apart; of a maker's family also of the pattern cores made after it (N4). */
const namesOfFamily = (
  atlas: Ground,
  family: Family,
  ofModels: ReadonlyMap<ModelId, readonly NameRule[]>,
  cores: readonly Core[],
): NameRule[] => {
  if (family.maker === null) return [];
  const models = atlas.atlas.models.filter((model) => model.family === family.id);
  if (models.length === 0) return [];
  const text = familyName(atlas, family);
  const words = { rung: 'family', maker: family.maker, models: [], family: family.id } as const;
  const byRung = (model: Model, rung: Rung): readonly NameRule[] => (ofModels.get(model.id) ?? []).filter(({ name }) => name.rung === rung);
  const patterns = atlas.atlas.models.filter(
    (model) => makerOf(atlas, model) === null && model.patternOf !== null && atlas.models.get(model.patternOf)?.family === family.id,
  );
  return [
    anyOf(
      { ...words, id: `family:${family.id}`, text: `${text} family, model not settled` },
      models.flatMap((model) => byRung(model, 'model with service parts replaced')),
    ),
    anyOf(
      { ...words, id: `family-core:${family.id}`, text: `core of the ${text} family, model not settled` },
      cores.filter((core) => core.models.some((model) => model.family === family.id)).map((core) => core.rule),
    ),
    ...(patterns.length === 0
      ? []
      : [
          anyOf(
            {
              id: `pattern-family:${family.id}`,
              rung: 'pattern family',
              maker: null,
              text: `pattern part core after the ${text} family, size not settled`,
              models: [],
              family: family.id,
            },
            patterns.flatMap((model) => byRung(model, 'pattern core')),
          ),
        ]),
  ];
};

/** Parts of a family that are of no one model of it: said where each of those is ruled out, whatever the plate. */
export interface FamilyParts {
  readonly rule: NameRule;
  readonly noneOf: readonly NameRule[];
}

const partsOfFamily = (atlas: Ground, family: Family, ofModels: ReadonlyMap<ModelId, readonly NameRule[]>): FamilyParts[] => {
  const noneOf = atlas.atlas.models.flatMap((model): NameRule[] => {
    if (model.family !== family.id || family.maker === null) return [];
    const own = ofModels.get(model.id) ?? [];
    const plateless =
      own.find(({ name }) => name.rung === 'all parts') ?? own.find(({ name }) => name.rung === 'model with service parts replaced');
    return plateless === undefined ? [] : [plateless];
  });
  if (noneOf.length === 0) return [];
  const { demands, open } = demandsOfAny(noneOf);
  const text = `parts of the ${familyName(atlas, family)} family, of no one model`;
  const words: NameWords = { id: `family-parts:${family.id}`, rung: 'family parts', maker: null, text, models: [], family: family.id };
  return [{ rule: nameRule(words, demands, open), noneOf }];
};

const anyOf = (words: NameWords, rules: readonly NameRule[]): NameRule => {
  const { demands, open } = demandsOfAny(rules);
  return { ...nameRule(words, demands, open), anyOf: rules };
};

/** The weakest name that still says "this is that model": its naming slots alone decide it. */
export const serviceNameId = (model: ModelId): NameId => asId<NameId>(`service:${model}`);

const numbered = new WeakMap<CompiledAtlas, ReadonlyMap<NameId, NameRule>>();

/** The compiled name with this id. */
export const ruleNamed = (atlas: CompiledAtlas, id: NameId): NameRule | undefined => {
  let byId = numbered.get(atlas);
  if (byId === undefined) {
    byId = new Map(atlas.names.map((rule) => [rule.name.id, rule]));
    numbered.set(atlas, byId);
  }
  return byId.get(id);
};

/** All its parts, of whatever plate. */
export const allPartsNameId = (model: ModelId): NameId => asId<NameId>(`all-parts:${model}`);

const makerOf = (atlas: Ground, model: Model): MakerId | null => (atlas.families.get(model.family) as Family).maker;

export const fullName = (atlas: Ground, model: Model): string => {
  const maker = makerOf(atlas, model);
  return maker === null ? model.name : `${atlas.makers.get(maker)?.name} ${model.name}`;
};

export const familyName = (atlas: Ground, family: Family): string =>
  family.maker === null ? family.name : `${atlas.makers.get(family.maker)?.name} ${family.name}`;

/** `Tarnwick Rowan IV-18, Rowan IV-22 or Rowan IV-26`; a long list is cut and says how many more. */
export const fullNames = (atlas: Ground, models: readonly Model[]): string => {
  const [first, ...rest] = models as [Model, ...Model[]];
  if (rest.length === 0) return fullName(atlas, first);
  const names = [fullName(atlas, first), ...rest.map((model) => model.name)];
  const shown = names.length > 4 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
  return `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`;
};

export const housingSlots = (atlas: Pick<CompiledAtlas, 'slots'>): readonly CompiledSlot[] =>
  atlas.slots.filter(({ slot }) => slot.group === 'housing');

/** Which parts may sit where, for every model, by slot number: as listed (A3), and wherever a part they supersede, in any number of steps, is listed. */
export const rolesOf = (atlas: Ground): Map<ModelId, (ReadonlyMap<number, Role> | null)[]> => {
  const successors = new Map<string, number[]>();
  for (const slot of atlas.slots) {
    slot.parts.forEach((part, number) => {
      if (part.supersedes === undefined) return;
      const known = successors.get(part.supersedes);
      if (known) known.push(number);
      else successors.set(part.supersedes, [number]);
    });
  }
  const answer = new Map<ModelId, (ReadonlyMap<number, Role> | null)[]>();
  for (const model of atlas.atlas.models) {
    const roles: (Map<number, Role> | null)[] = atlas.slots.map(() => null);
    for (const { slot, part, role } of model.allowed) {
      const number = atlas.slotNumber.get(slot) as number;
      const own = roles[number] ?? new Map<number, Role>();
      roles[number] = own;
      const at = (atlas.slots[number] as CompiledSlot).partNumber.get(part);
      if (at === undefined) throw new Error(`model ${model.id} lists ${part} in ${slot}, where the atlas has no such part`);
      own.set(at, role);
    }
    roles.forEach((listed, number) => {
      const { parts } = atlas.slots[number] as CompiledSlot;
      for (const [part, role] of [...(listed ?? [])]) {
        const open = [part];
        for (let at = open.pop(); at !== undefined; at = open.pop()) {
          for (const next of successors.get((parts[at] as { id: string }).id) ?? []) {
            if (listed?.has(next)) continue;
            listed?.set(next, role);
            open.push(next);
          }
        }
      }
    });
    answer.set(model.id, roles);
  }
  return answer;
};

/** The same with what makes a name: a slot is naming when some part is listed there as *names* or *option*; the nameplate only under the maker's plate rule (N3). */
const seatsOf = (atlas: Ground): Map<ModelId, (Seats | null)[]> => {
  const roles = rolesOf(atlas);
  const shared = atlas.slots.map(sharedSets);
  return new Map(
    atlas.atlas.models.map((model) => {
      const maker = makerOf(atlas, model);
      const openEnded = new Set(model.openEnded);
      const plateRule = maker !== null && (atlas.makers.get(maker)?.plateRule ?? false);
      const seats = (roles.get(model.id) as readonly (ReadonlyMap<number, Role> | null)[]).map((listed, number): Seats | null => {
        const { slot } = atlas.slots[number] as CompiledSlot;
        if (slot.group === 'plate' && (listed === null || !plateRule)) return null;
        const [names, any]: [number[], number[]] = [[], []];
        let naming = false;
        for (const [part, role] of listed ?? []) {
          any.push(part);
          if (role === 'names') names.push(part);
          if (role !== 'service') naming = true;
        }
        const share = shared[number] as (parts: readonly number[]) => ReadonlySet<number>;
        return {
          names: share(names),
          any: share(any),
          naming,
          open: listed === null || openEnded.has(slot.id),
        };
      });
      return [model.id, seats];
    }),
  );
};

/** One set for the same parts: what a unit has of it is then looked at once for every name that demands it. */
const sharedSets = (): ((parts: readonly number[]) => ReadonlySet<number>) => {
  const made = new Map<string, ReadonlySet<number>>();
  return (parts) => {
    const key = parts.join();
    let set = made.get(key);
    if (set === undefined) {
      set = new Set(parts);
      made.set(key, set);
    }
    return set;
  };
};

/** Cores of named models; models whose cores demand the same, from lists equally open, are spoken of together. */
const coresOf = (atlas: Ground, seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>): Core[] => {
  const cores = new Map<string, Model[]>();
  const demand = inCoreOf(atlas, anyWhereNaming);
  for (const model of atlas.atlas.models) {
    const maker = makerOf(atlas, model);
    if (maker === null) continue;
    const sets = seatsAt(seats, model).map((seat, slot) => {
      const parts = seat === null ? null : demand(seat, slot);
      return parts === null ? '-' : `${seat?.open ? '…' : ''}${[...parts].sort((a, b) => a - b).join()}`;
    });
    const key = `${maker}|${sets.join('|')}`;
    const known = cores.get(key);
    if (known) known.push(model);
    else cores.set(key, [model]);
  }
  const housings = housingSlots(atlas).map(({ slot }) => ({ slot: slot.id, origin: { kind: 'unidentified' } as const }));
  return [...cores.values()].map((models) => {
    const [first] = models as [Model, ...Model[]];
    const text = `core of ${fullNames(atlas, models)} with unidentified housings`;
    const words = { id: `core:${first.id}`, rung: 'core', maker: makerOf(atlas, first), text, family: first.family } as const;
    const rule = ruleOf({ ...words, models: models.map(({ id }) => id) }, seatsAt(seats, first), demand);
    return { models, rule: { ...rule, name: { ...rule.name, housings } } };
  });
};

/** The housings a model, or the models of a maker's family, list in a slot, and whether such a list is open-ended. */
export interface HousingList {
  readonly parts: ReadonlySet<number>;
  readonly open: boolean;
}

/** What each housing slot may hold when a housing is said to be of a family, and when it is the core's own models'. */
export interface HousingOrigins {
  readonly ofFamily: ReadonlyMap<FamilyId, readonly (HousingList | null)[]>;
  readonly ofModel: ReadonlyMap<ModelId, readonly (HousingList | null)[]>;
}

/** The housings listed by each model, and by each maker's family, by slot number (null: none listed, or no housing slot). */
const housingOrigins = (atlas: Ground, seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>): HousingOrigins => {
  const ofModel = new Map<ModelId, (HousingList | null)[]>();
  const ofFamily = new Map<FamilyId, (HousingList | null)[]>();
  for (const model of atlas.atlas.models) {
    if (makerOf(atlas, model) === null) continue;
    const own = seatsAt(seats, model).map((seat, slot): HousingList | null =>
      seat === null || groupAt(atlas, slot) !== 'housing' ? null : { parts: seat.any, open: seat.open },
    );
    ofModel.set(model.id, own);
    const family = ofFamily.get(model.family);
    ofFamily.set(model.family, family ? family.map((list, slot) => joined(list, own[slot] ?? null)) : own);
  }
  return { ofFamily, ofModel };
};

const joined = (a: HousingList | null, b: HousingList | null): HousingList | null =>
  a === null || b === null ? (a ?? b) : { parts: union([a.parts, b.parts]), open: a.open || b.open };
