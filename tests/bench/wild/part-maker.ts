import {
  type Atlas,
  asId,
  type Fact,
  type Family,
  type Feature,
  type FeatureId,
  type Maker,
  type Part,
  type PartId,
  type SlotId,
} from '../../../reasoner/index.ts';
import type { Dice } from '../../oracle/dice.ts';
import type { Interface } from './interfaces.ts';
import { type Measure, measuresOf } from './mating-sizes.ts';

/** What sets a part apart from others of its slot. */
export interface Wanted {
  readonly slot: SlotId;
  readonly name: string;
  readonly maker: Maker | null;
  readonly family: Family;
  /** How it meets its neighbours. */
  readonly interfaces: readonly Interface[];
  readonly patternOf?: Part | undefined;
  readonly supersedes?: Part | undefined;
}

/** Makes parts: each with sizes, marks and a number of its own, at its ports as its interfaces say, in all else as some part of the atlas. */
export class PartMaker {
  readonly parts: Part[] = [];
  readonly #dice: Dice;
  readonly #features: ReadonlyMap<SlotId, readonly Feature[]>;
  readonly #like: ReadonlyMap<SlotId, readonly Part[]>;
  readonly #measures: (feature: FeatureId) => readonly Measure[];
  readonly #tradeNames: ReadonlySet<string>;

  constructor(atlas: Atlas, dice: Dice) {
    this.#dice = dice;
    this.#measures = measuresOf(atlas);
    this.#features = new Map(atlas.slots.map(({ id }) => [id, atlas.features.filter(({ slot }) => slot === id)]));
    this.#like = new Map(atlas.slots.map(({ id }) => [id, atlas.parts.filter(({ slot, maker }) => slot === id && maker !== null)]));
    this.#tradeNames = new Set(atlas.makers.flatMap(({ tradeNames }) => tradeNames.map(({ name }) => name)));
  }

  make(wanted: Wanted): Part {
    const { slot, name, maker, family, patternOf, supersedes } = wanted;
    const number = this.parts.length + 1;
    const like = this.#dice.one(this.#like.get(slot) as readonly Part[]);
    const facts: Record<FeatureId, Fact> = {};
    for (const feature of this.#features.get(slot) as readonly Feature[]) {
      const fact = this.#factOf(feature, like, wanted, number);
      if (fact !== undefined) facts[feature.id] = fact;
    }
    const part: Part = {
      id: asId<PartId>(`part-${number}`),
      slot,
      name,
      maker: maker?.id ?? null,
      numbers: maker === null ? [] : [numberOf(number)],
      ...(patternOf === undefined ? {} : { patternOf: patternOf.id }),
      ...(supersedes === undefined ? {} : { supersedes: supersedes.id }),
      facts,
      source: family.source,
    };
    this.parts.push(part);
    return part;
  }

  #factOf({ id, kind, says, plausible }: Feature, like: Part, { interfaces, maker, family }: Wanted, number: number): Fact | undefined {
    const meeting = interfaces.find(({ facts }) => facts.has(id));
    const fact = meeting?.facts.get(id) ?? like.facts[id];
    if (fact === undefined || says === 'serial number') return undefined;
    if (says === 'year of make') return { kind: 'count', from: family.from ?? 1950, to: family.to ?? 2026 };
    if (kind === 'mark') return this.#markOf(fact, says, maker, number);
    if (this.#dice.often(2)) return { kind: 'not known' };
    if (fact.kind !== 'measure') return fact;
    const leeway = meeting?.leeway.get(id);
    if (leeway !== undefined) return { ...fact, nominal: inSteps(fact.nominal + this.#between(-1, 1) * leeway) };
    const sizes = this.#measures(id);
    const { lower, upper } = this.#dice.one(sizes);
    const [from, to] = [sizes[0] as Measure, sizes.at(-1) as Measure];
    const size = this.#between(from.nominal, to.nominal * 1.1);
    return { kind: 'measure', nominal: inSteps(Math.min(plausible?.to ?? size, Math.max(plausible?.from ?? size, size))), lower, upper };
  }

  /** Letters of its own; where the maker's name is cast or stamped, that, and nothing on a nameless part. */
  #markOf(fact: Fact, says: Feature['says'], maker: Maker | null, number: number): Fact {
    if (maker === null) return { kind: 'mark', anyOf: [], blank: true };
    const text = fact.kind === 'mark' ? fact.anyOf[0] : undefined;
    if (says === 'part number') return { kind: 'mark', anyOf: [numberOf(number)], blank: false };
    if (says === 'trade name' || (text !== undefined && this.#tradeNames.has(text)))
      return { kind: 'mark', anyOf: [this.#dice.one(maker.tradeNames).name], blank: false };
    if (text === undefined) return { kind: 'mark', anyOf: [], blank: true };
    return { kind: 'mark', anyOf: [`mark ${this.#dice.whole(1, 40 + Math.floor(number / 4))}`], blank: this.#dice.often(10) };
  }

  #between(from: number, to: number): number {
    return from + (this.#dice.whole(0, 2 ** 30) / 2 ** 30) * (to - from);
  }
}

const numberOf = (number: number): string => `wild ${number}`;

/** In steps of a hundred-thousandth of a millimetre, far finer than anybody measures: so hardly two parts have a size in common. */
const inSteps = (size: number): number => Math.round(size * 1e5) / 1e5;
