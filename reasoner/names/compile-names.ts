import type { Family, Model, Role } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import { asId, type FamilyId, type MakerId, type ModelId, type NameId } from '../ids.ts';
import type { Name, Rung } from '../verdict/verdict.ts';

/** A name with what it demands: by slot number the part numbers allowed there, or null where the name does not care. */
export interface NameRule {
  readonly name: Name;
  readonly demands: readonly Demand[];
}
export type Demand = ReadonlySet<number> | null;

/** Where a part may sit, by role, for one slot of one model. */
interface Seats {
  readonly names: ReadonlySet<number>;
  readonly any: ReadonlySet<number>;
  readonly naming: boolean;
}

/** The atlas as far as it is compiled when names are made. */
type Ground = Omit<CompiledAtlas, 'names' | 'housings'>;

/** Every name of the ladder (N4) but the hybrids, whose number is formed on demand. The list of parts comes last. */
export const compileNames = (atlas: Ground): { readonly names: NameRule[]; readonly housings: HousingOrigins } => {
  const seats = seatsOf(atlas);
  const rules: NameRule[] = [];
  for (const model of atlas.atlas.models) {
    const of = seats.get(model.id) as readonly (Seats | null)[];
    const maker = makerOf(atlas, model);
    if (maker === null) {
      const pattern = model.patternOf === null ? null : atlas.models.get(model.patternOf);
      const whose = pattern ? fullName(atlas, pattern) : 'no known model';
      rules.push(
        rule(
          `pattern:${model.id}`,
          'pattern core',
          null,
          `pattern part core (pattern of ${whose}, no maker’s name)`,
          [model],
          coreDemands(atlas, of),
        ),
      );
      continue;
    }
    const text = fullName(atlas, model);
    const service = of.map((seat) => (seat === null || seat.naming ? null : seat.any));
    rules.push(
      rule(
        `model:${model.id}`,
        'model',
        maker,
        text,
        [model],
        of.map((seat, slot) => (seat?.naming ? seat.names : (service[slot] ?? null))),
      ),
      rule(
        `options:${model.id}`,
        'model with options',
        maker,
        `${text}, with a catalogued option`,
        [model],
        of.map((seat) => seat?.any ?? null),
      ),
      rule(
        serviceNameId(model.id),
        'model with service parts replaced',
        maker,
        `${text}, service parts aside`,
        [model],
        of.map((seat) => (seat?.naming ? seat.any : null)),
      ),
    );
  }
  for (const { models, demands } of coresOf(atlas, seats)) {
    const maker = makerOf(atlas, models[0] as Model) as MakerId;
    const unidentified = housingSlots(atlas).map(({ slot }) => ({ slot: slot.id, origin: { kind: 'unidentified' } as const }));
    const made = rule(
      coreNameId(models[0] as Model),
      'core',
      maker,
      `core of ${fullNames(atlas, models)} with unidentified housings`,
      models,
      demands,
    );
    rules.push({ ...made, name: { ...made.name, housings: unidentified } });
  }
  for (const family of atlas.atlas.families) {
    if (family.maker === null) continue;
    const of = atlas.atlas.models
      .filter((model) => model.family === family.id)
      .map((model) => seats.get(model.id) as readonly (Seats | null)[]);
    if (of.length === 0) continue;
    const whole = atlas.slots.map((slot) =>
      of.every((each) => each[slot.number]?.naming) ? union(of.map((each) => (each[slot.number] as Seats).any)) : null,
    );
    const text = familyName(atlas, family);
    const core = whole.map((demand, slot) => (atlas.slots[slot]?.slot.group === 'core' ? demand : null));
    rules.push(
      rule(`family:${family.id}`, 'family', family.maker, `${text} family, model not settled`, [], whole, family.id),
      rule(`family-core:${family.id}`, 'family', family.maker, `core of the ${text} family, model not settled`, [], core, family.id),
    );
  }
  rules.push(
    rule(
      'parts',
      'parts',
      null,
      'no name: a list of parts',
      [],
      atlas.slots.map(() => null),
    ),
  );
  return { names: rules, housings: housingOrigins(atlas, seats) };
};

/** The weakest name that still says "this is that model": its naming slots alone decide it. */
export const serviceNameId = (model: ModelId): NameId => asId<NameId>(`service:${model}`);

const coreNameId = (model: Model): string => `core:${model.id}`;

const rule = (
  id: string,
  rung: Rung,
  maker: MakerId | null,
  text: string,
  models: readonly Model[],
  demands: readonly Demand[],
  family: FamilyId | null = models[0]?.family ?? null,
): NameRule => ({
  name: { id: asId<NameId>(id), rung, maker, text, models: models.map((model) => model.id), family, housings: [] },
  demands,
});

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
  return new Map(
    atlas.atlas.models.map((model) => {
      const maker = makerOf(atlas, model);
      const plateRule = maker !== null && (atlas.makers.get(maker)?.plateRule ?? false);
      const seats = (roles.get(model.id) as readonly (ReadonlyMap<number, Role> | null)[]).map((listed, number): Seats | null => {
        if (listed === null || ((atlas.slots[number] as CompiledSlot).slot.group === 'plate' && !plateRule)) return null;
        return {
          names: new Set([...listed].filter(([, role]) => role === 'names').map(([part]) => part)),
          any: new Set(listed.keys()),
          naming: [...listed.values()].some((role) => role !== 'service'),
        };
      });
      return [model.id, seats];
    }),
  );
};

const coreDemands = (atlas: Ground, of: readonly (Seats | null)[]): Demand[] =>
  of.map((seat, slot) => (seat?.naming && atlas.slots[slot]?.slot.group === 'core' ? seat.any : null));

/** Cores of named models; models whose cores demand the same are spoken of together. */
const coresOf = (atlas: Ground, seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>) => {
  const cores = new Map<string, { models: Model[]; demands: Demand[] }>();
  for (const model of atlas.atlas.models) {
    const maker = makerOf(atlas, model);
    if (maker === null) continue;
    const demands = coreDemands(atlas, seats.get(model.id) as readonly (Seats | null)[]);
    const key = `${maker}|${demands.map((demand) => (demand === null ? '-' : [...demand].sort((a, b) => a - b).join())).join('|')}`;
    const known = cores.get(key);
    if (known) known.models.push(model);
    else cores.set(key, { models: [model], demands });
  }
  return [...cores.values()];
};

export const union = (sets: readonly ReadonlySet<number>[]): ReadonlySet<number> => {
  const all = new Set<number>();
  for (const set of sets) for (const each of set) all.add(each);
  return all;
};

/** What each housing slot may hold when a housing is said to be of a family, and when it is the core's own models'. */
export interface HousingOrigins {
  readonly ofFamily: ReadonlyMap<FamilyId, readonly (ReadonlySet<number> | null)[]>;
  readonly ofModel: ReadonlyMap<ModelId, readonly (ReadonlySet<number> | null)[]>;
}

/** The housings listed by each model, and by each maker's family, by slot number (null: none listed, or no housing slot). */
const housingOrigins = (atlas: Ground, seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>): HousingOrigins => {
  const ofModel = new Map<ModelId, (ReadonlySet<number> | null)[]>();
  const ofFamily = new Map<FamilyId, (ReadonlySet<number> | null)[]>();
  for (const model of atlas.atlas.models) {
    if (makerOf(atlas, model) === null) continue;
    const own = (seats.get(model.id) as readonly (Seats | null)[]).map((seat, slot) =>
      atlas.slots[slot]?.slot.group === 'housing' ? (seat?.any ?? null) : null,
    );
    ofModel.set(model.id, own);
    const family = ofFamily.get(model.family);
    ofFamily.set(
      model.family,
      family ? family.map((set, slot) => (set && own[slot] ? union([set, own[slot]]) : (set ?? own[slot] ?? null))) : own,
    );
  }
  return { ofFamily, ofModel };
};
