import {
  type Atlas,
  asId,
  type Family,
  type FamilyId,
  type Generation,
  type GenerationId,
  type Joint,
  type Maker,
  type Model,
  type ModelId,
  type Part,
  type Role,
  type SlotId,
  type SourceId,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { type Interface, Interfaces } from './interfaces.ts';
import { PartMaker } from './part-maker.ts';

/** Slots that are one for a whole family, and often for several; the rest are of a size. The plate is of a model. */
const core = ['bearing-housing', 'bearing-set', 'shaft', 'heat-shield'];
const ends = [
  ['compressor-housing', 'compressor-wheel', 'backplate'],
  ['turbine-housing', 'turbine-wheel'],
];

interface Listed {
  readonly part: Part;
  readonly role: Role;
}
type Lists = readonly Listed[];

/** How all parts on one core meet, and the parts of it: one core may be under several families. */
interface Core {
  readonly meets: ReadonlyMap<Joint, Interface>;
  readonly lists: Lists;
  /** The sizes of each end that were made for it. */
  readonly ends: readonly End[][];
}
interface End {
  readonly meets: ReadonlyMap<Joint, Interface>;
  readonly lists: Lists;
}
interface Made {
  readonly family: Family;
  readonly core: Core;
  readonly models: readonly Model[];
  readonly endsOf: readonly (readonly End[])[];
}

/**
 * An atlas of at least so many parts (the last family is made whole) in which hardly any two have a size in common: the slots, joints, features, rules, makers and what
 * a shop can do are those of the given one, its families, generations, models, plates and parts are not. Parts are shared among models as catalogues share them: a core by one
 * to three families, an end by some models. Of a hundred facts two are not known; some lists are open-ended; some families are patterns of others. The same seed makes the same atlas.
 */
export const wildAtlas = (like: Atlas, parts: number, seed = 1): Atlas => new Wild(like, seed).upTo(parts);

class Wild {
  readonly #like: Atlas;
  readonly #dice: Dice;
  readonly #interfaces: Interfaces;
  readonly #parts: PartMaker;
  readonly #makers: readonly Maker[];
  readonly #source: SourceId;
  readonly #generations: Generation[] = [];
  readonly #made: Made[] = [];
  #models = 0;

  constructor(like: Atlas, seed: number) {
    this.#like = like;
    this.#dice = new Dice(seed);
    this.#interfaces = new Interfaces(like, this.#dice);
    this.#parts = new PartMaker(like, this.#dice);
    // How they wrote names and numbers is not known: those here are written otherwise.
    this.#makers = like.makers.map(({ numbering: _numbering, ...maker }) => ({ ...maker, grammar: null }));
    this.#source = (like.sources.find(({ kind }) => kind === 'invented') as Atlas['sources'][number]).id;
  }

  upTo(parts: number): Atlas {
    while (this.#parts.parts.length < parts) this.#made.push(this.#family());
    return {
      ...this.#like,
      edition: `wild, ${this.#parts.parts.length} parts`,
      makers: this.#makers,
      families: this.#made.map(({ family }) => family),
      generations: this.#generations,
      models: this.#made.flatMap(({ models }) => models),
      parts: this.#parts.parts,
      rates: [],
      // What is pointed out in a drawing is a part of the atlas these words came with.
      terms: [],
    };
  }

  #family(): Made {
    const number = this.#made.length + 1;
    const before = this.#made.at(-1);
    if (before !== undefined && before.family.maker !== null && this.#dice.often(15)) return this.#patternOf(before, number);
    const from = this.#dice.whole(1950, 2015);
    const after = this.#made.length > 0 && this.#dice.often(30) ? [this.#dice.one(this.#made).family] : [];
    const family: Family = {
      id: asId<FamilyId>(`family-${number}`),
      name: `Family ${number}`,
      maker: this.#dice.one(this.#makers).id,
      from,
      to: this.#dice.often(60) ? from + this.#dice.whole(3, 25) : null,
      descendsFrom: after.map(({ id }) => id),
      succeeds: [],
      patternOf: [],
      about: 'Made by a seed.',
      source: this.#source,
    };
    const shared = before !== undefined && before.family.maker === family.maker && this.#dice.often(50);
    const its = shared ? before.core : this.#core(family);
    const generations = this.#dice.often(40) ? this.#twoGenerations(family) : [null];
    const models: Model[] = [];
    const endsOf: End[][] = [];
    for (let n = this.#dice.whole(3, 6); n > 0; n -= 1) {
      const chosen = ends.map((slots, i) => this.#end(its, i, slots, family));
      endsOf.push(chosen);
      models.push(this.#model(family, this.#dice.one(generations), null, [its, ...chosen], its.meets, models.length + 1));
    }
    return { family, core: its, models, endsOf };
  }

  /** The same again without a maker's name: every model a pattern of one of the family's, its parts to the same interfaces. */
  #patternOf({ family: original, core: its, models, endsOf }: Made, number: number): Made {
    const family: Family = {
      ...original,
      id: asId<FamilyId>(`family-${number}`),
      name: `Family ${number}`,
      maker: null,
      descendsFrom: [],
      patternOf: [original.id],
    };
    const copies = new Map<object, End>();
    const copyOf = ({ meets, lists }: Pick<End, 'meets' | 'lists'>): End => {
      const known = copies.get(lists);
      if (known !== undefined) return known;
      const copy: End = {
        meets,
        lists: lists.map(({ part, role }) => ({ role, part: this.#part(part.slot, family, [its.meets, meets], { patternOf: part }) })),
      };
      copies.set(lists, copy);
      return copy;
    };
    return {
      family,
      core: its,
      endsOf,
      models: models.map((model, i) =>
        this.#model(family, null, model.id, [copyOf(its), ...(endsOf[i] as readonly End[]).map(copyOf)], its.meets, i + 1),
      ),
    };
  }

  #core(family: Family): Core {
    const meets = this.#meeting((a, b) => core.includes(a) || core.includes(b));
    const lists = core.flatMap((slot): Listed[] => {
      const role: Role = slot === 'bearing-set' || slot === 'heat-shield' ? 'service' : 'names';
      const part = this.#part(slot, family, [meets]);
      const later = this.#dice.often(25) ? [this.#part(slot, family, [meets], { supersedes: part })] : [];
      const nameless = role === 'service' && this.#dice.often(50) ? [this.#part(slot, family, [meets], { patternOf: part })] : [];
      return [part, ...later, ...nameless].map((each) => ({ part: each, role }));
    });
    return { meets, lists, ends: ends.map(() => []) };
  }

  /** One that was made for the core before, or a new size of it. */
  #end(its: Core, i: number, slots: readonly string[], family: Family): End {
    const before = its.ends[i] as End[];
    if (before.length > 0 && this.#dice.often(25)) return this.#dice.one(before);
    const meets = this.#meeting((a, b) => slots.includes(a) && slots.includes(b));
    const lists = slots.flatMap((slot): Listed[] => {
      const housing = slot.endsWith('-housing');
      const role: Role = slot === 'backplate' ? 'service' : 'names';
      const part = this.#part(slot, family, [meets, its.meets]);
      const later = !housing && this.#dice.often(20) ? [this.#part(slot, family, [meets, its.meets], { supersedes: part })] : [];
      const options = Array.from({ length: housing ? this.#dice.whole(0, 2) : 0 }, () => this.#part(slot, family, [meets, its.meets]));
      return [
        ...[part, ...later].map((each): Listed => ({ part: each, role })),
        ...options.map((each): Listed => ({ part: each, role: 'option' })),
      ];
    });
    const end: End = { meets, lists };
    before.push(end);
    return end;
  }

  #model(
    family: Family,
    generation: Generation | null,
    patternOf: ModelId | null,
    of: readonly { readonly lists: Lists }[],
    meets: Core['meets'],
    n: number,
  ): Model {
    const plates = family.maker === null ? 0 : this.#dice.often(20) ? 2 : 1;
    const plate = Array.from({ length: plates }, (): Listed => ({ part: this.#part('nameplate', family, [meets]), role: 'names' }));
    const allowed = [...of.flatMap(({ lists }) => lists), ...plate].map(({ part, role }) => ({ slot: part.slot, part: part.id, role }));
    this.#models += 1;
    return {
      id: asId<ModelId>(`model-${this.#models}`),
      name: `${family.name}-${n}`,
      family: family.id,
      generation: generation?.id ?? null,
      patternOf,
      from: family.from,
      to: family.to,
      allowed,
      ...(this.#dice.often(5) ? { openEnded: [this.#dice.one([...core, ...ends.flat()]) as SlotId] } : {}),
      source: this.#source,
    };
  }

  #meeting(of: (a: SlotId, b: SlotId) => boolean): ReadonlyMap<Joint, Interface> {
    const joints = this.#like.joints.filter((joint) => of(...this.#interfaces.slotsOf(joint)));
    return new Map(joints.map((joint) => [joint, this.#interfaces.draw(joint)]));
  }

  #part(
    slot: string,
    family: Family,
    meets: readonly ReadonlyMap<Joint, Interface>[],
    from: { readonly patternOf?: Part; readonly supersedes?: Part } = {},
  ): Part {
    const maker = from.patternOf === undefined ? (this.#makers.find(({ id }) => id === family.maker) ?? null) : null;
    return this.#parts.make({
      slot: asId<SlotId>(slot),
      name: `${family.name} ${slot} ${this.#parts.parts.length + 1}`,
      maker,
      family,
      interfaces: meets.flatMap((each) => [...each.values()]),
      ...from,
    });
  }

  #twoGenerations(family: Family): Generation[] {
    const id = (n: number) => asId<GenerationId>(`${family.id}-${n}`);
    const two = [1, 2].map(
      (n): Generation => ({
        id: id(n),
        family: family.id,
        name: `${family.name}, issue ${n}`,
        from: family.from,
        to: family.to,
        succeeds: n === 1 ? null : id(1),
        source: this.#source,
      }),
    );
    this.#generations.push(...two);
    return two;
  }
}
