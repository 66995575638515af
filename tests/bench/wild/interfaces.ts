import type { Atlas, Fact, FeatureId, Joint, Part, SlotId } from '../../../reasoner/index.ts';
import type { Dice } from '../../oracle/dice.ts';
import { type MatingSizes, type Measure, matingSizesOf, measuresOf, middleOf } from './mating-sizes.ts';

/** About this share of two random parts is to go together by the first size of a joint; its other rules make it less. */
const share = 0.012;

/** How parts of one pattern meet at a joint: what the features of both its ports are, and of each size how far a part may be from it and still fit. */
export interface Interface {
  readonly facts: ReadonlyMap<FeatureId, Fact>;
  readonly leeway: ReadonlyMap<FeatureId, number>;
}

/** Draws interfaces of each joint of the atlas: what is counted and chosen as on one of its own models, what is measured anew. */
export class Interfaces {
  readonly #measures: (feature: FeatureId) => readonly Measure[];
  readonly #slotOf: ReadonlyMap<string, SlotId>;
  readonly #featuresOf: ReadonlyMap<string, readonly FeatureId[]>;
  readonly #plausible: ReadonlyMap<FeatureId, { readonly from: number; readonly to: number }>;
  /** By slot, a part of each model: the models in one order for all slots. */
  readonly #parts: ReadonlyMap<SlotId, readonly Part[]>;
  readonly #dice: Dice;

  constructor(atlas: Atlas, dice: Dice) {
    this.#dice = dice;
    this.#measures = measuresOf(atlas);
    this.#slotOf = new Map(atlas.ports.map(({ id, slot }) => [id, slot]));
    this.#featuresOf = new Map(atlas.ports.map(({ id }) => [id, atlas.features.filter(({ port }) => port === id).map((one) => one.id)]));
    this.#plausible = new Map(atlas.features.flatMap(({ id, plausible }) => (plausible === undefined ? [] : [[id, plausible] as const])));
    const byId = new Map(atlas.parts.map((part) => [part.id, part]));
    const models = atlas.models.filter(({ allowed }) => atlas.slots.every(({ id }) => allowed.some(({ slot }) => slot === id)));
    this.#parts = new Map(
      atlas.slots.map(({ id }) => [
        id,
        models.map(({ allowed }) => byId.get(allowed.find(({ slot }) => slot === id)?.part as Part['id']) as Part),
      ]),
    );
  }

  /** The two slots that meet there. */
  slotsOf(joint: Joint): readonly [SlotId, SlotId] {
    return [this.#slotOf.get(joint.a) as SlotId, this.#slotOf.get(joint.b) as SlotId];
  }

  draw(joint: Joint): Interface {
    const [a, b] = this.slotsOf(joint);
    const like = this.#dice.whole(0, (this.#parts.get(a) as readonly Part[]).length - 1);
    const facts = new Map<FeatureId, Fact>();
    for (const [slot, port] of [
      [a, joint.a],
      [b, joint.b],
    ] as const) {
      const part = this.#parts.get(slot)?.[like] as Part;
      for (const feature of this.#featuresOf.get(port) ?? []) {
        const fact = part.facts[feature];
        if (fact !== undefined) facts.set(feature, fact);
      }
    }
    const leeway = new Map<FeatureId, number>();
    const sizes = joint.rules.flatMap(matingSizesOf);
    // The first size is anywhere; the others go with it, as blades are higher on a larger wheel.
    const at = this.#dice.whole(0, 2 ** 30) / 2 ** 30;
    for (const [n, pair] of sizes.entries()) this.#measure(pair, n === 0 ? at : null, at, facts, leeway);
    return { facts, leeway };
  }

  #measure(pair: MatingSizes, own: number | null, first: number, facts: Map<FeatureId, Fact>, leeway: Map<FeatureId, number>): void {
    const { inner, outer, min, max } = pair;
    const [known, beside] = [this.#measures(inner), this.#measures(outer)];
    const [like, other] = [this.#dice.one(known), this.#dice.one(beside)];
    const window = max - min + (like.upper - like.lower) + (other.upper - other.lower);
    const { from, to } = this.#roomOf(inner, outer);
    const spread = Math.min(to - from, window / share);
    const middle = within((known[Math.floor(known.length / 2)] as Measure).nominal, from + spread / 2, to - spread / 2);
    const askew = own === null ? (this.#dice.whole(-1000, 1000) / 1000) * window : 0;
    const size = within(middle + ((own ?? first) - 0.5) * spread + askew, from, to);
    facts.set(inner, measured(like, size));
    // So that the middles of both are apart by the middle of what the rule allows.
    facts.set(outer, measured(other, size + middleOf(like) + (min + max) / 2 - middleOf(other)));
    leeway.set(inner, (max - min) / 5);
    leeway.set(outer, (max - min) / 5);
  }

  /** Well inside what is plausible of both. */
  #roomOf(...features: readonly FeatureId[]): { readonly from: number; readonly to: number } {
    const plausible = features.map((feature) => this.#plausible.get(feature) as { from: number; to: number });
    const [from, to] = [Math.max(...plausible.map((each) => each.from)), Math.min(...plausible.map((each) => each.to))];
    return { from: from + 0.05 * (to - from), to: to - 0.05 * (to - from) };
  }
}

const within = (size: number, from: number, to: number): number => Math.min(to, Math.max(from, size));

const measured = ({ lower, upper }: Measure, nominal: number): Measure => ({ kind: 'measure', nominal, lower, upper });
