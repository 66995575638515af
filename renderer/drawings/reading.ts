import type { Fact, FeatureId } from '../../reasoner/index.ts';
import { asId } from '../route/asId.ts';
import type { LengthUnit } from '../sheet/readSeen.ts';
import { plain, sayCount, sayMeasure } from '../sheet/sayings.ts';
import { Pen } from './pen.ts';

/** What is known of the part that is drawn. A feature that is not there is not known. */
export type Facts = Readonly<Record<FeatureId, Fact>>;

/** A size to draw by. Where the atlas knows none, `value` only stands in, so that there is something to put the question mark on. */
export interface Size {
  readonly feature: FeatureId;
  /** mm or degrees; for a measure its nominal. */
  readonly value: number;
  readonly known: boolean;
  /** `46.3 mm`, or `?`. */
  readonly said: string;
}

export interface Count {
  readonly feature: FeatureId;
  /** The least of them; null where it is not known. */
  readonly value: number | null;
  /** `10`, `10 or 11`, `?`. */
  readonly said: string;
}

export interface Choice {
  readonly feature: FeatureId;
  /** What is found on good examples; empty where it is not known. */
  readonly anyOf: readonly string[];
  /** The one thing it is, where there is one. */
  readonly only: string | null;
}

/** Reads facts for a drawing, and keeps account of which were asked for and which of them are not known. */
export class Reading {
  readonly #facts: Facts;
  readonly #unit: LengthUnit;
  readonly #leastReach: number;
  readonly #asked = new Set<FeatureId>();
  readonly #unknown = new Set<FeatureId>();
  #sizes = 0;

  /** @param leastReach drawn as small as a part of this reach would be, mm: parts side by side are shown to one scale */
  constructor(facts: Facts, { unit = 'mm', leastReach = 0 }: { readonly unit?: LengthUnit; readonly leastReach?: number } = {}) {
    this.#facts = facts;
    this.#unit = unit;
    this.#leastReach = leastReach;
  }

  /** A pen for a part that reaches about so far, mm. */
  pen(reach: number): Pen {
    return new Pen(Math.max(reach, this.#leastReach));
  }

  size(id: string, standIn: number, kind: 'mm' | 'deg' = 'mm'): Size {
    const [feature, fact] = this.#fact(id);
    if (fact?.kind === 'measure') {
      if (kind === 'mm') this.#sizes += 1;
      return { feature, value: fact.nominal, known: true, said: sayMeasure(Number(fact.nominal.toFixed(3)), kind, this.#unit) };
    }
    this.#unknown.add(feature);
    return { feature, value: standIn, known: false, said: '?' };
  }

  count(id: string): Count {
    const [feature, fact] = this.#fact(id);
    if (fact?.kind === 'count') return { feature, value: fact.from, said: sayCount(fact.from, fact.to) };
    this.#unknown.add(feature);
    return { feature, value: null, said: '?' };
  }

  choice(id: string): Choice {
    const [feature, fact] = this.#fact(id);
    if (fact?.kind === 'choice') return { feature, anyOf: fact.anyOf, only: fact.anyOf.length === 1 ? (fact.anyOf[0] ?? null) : null };
    this.#unknown.add(feature);
    return { feature, anyOf: [], only: null };
  }

  presence(id: string): { readonly feature: FeatureId; readonly present: boolean | null } {
    const [feature, fact] = this.#fact(id);
    if (fact?.kind === 'presence') return { feature, present: fact.present };
    this.#unknown.add(feature);
    return { feature, present: null };
  }

  /** Letters it may bear; null among them says that good examples may bear none. Empty where it is not known. */
  marks(id: string): { readonly feature: FeatureId; readonly anyOf: readonly (string | null)[] } {
    const [feature, fact] = this.#fact(id);
    if (fact?.kind === 'mark') return { feature, anyOf: [...fact.anyOf, ...(fact.blank ? [null] : [])] };
    this.#unknown.add(feature);
    return { feature, anyOf: [] };
  }

  say(mm: number): string {
    return sayMeasure(Number(mm.toFixed(2)), 'mm', this.#unit);
  }

  /** What the scene says of itself. */
  account(): { readonly features: readonly FeatureId[]; readonly unknown: readonly FeatureId[]; readonly toScale: boolean } {
    return { features: [...this.#asked], unknown: [...this.#unknown], toScale: this.#sizes > 0 };
  }

  #fact(id: string): readonly [FeatureId, Fact | undefined] {
    const feature = asId<FeatureId>(id);
    this.#asked.add(feature);
    return [feature, this.#facts[feature]];
  }
}

/** The bolt or thread size an option names: `m6` and `m12x1.5` are 6 and 12 mm across. */
export const acrossOf = (option: string | null): number | null => {
  const found = option === null ? null : /^m(\d+(?:\.\d+)?)/.exec(option);
  return found?.[1] === undefined ? null : Number(found[1]);
};

/** `M7×0.75` from `m7x0.75`. */
export const sayThread = (option: string): string => option.toUpperCase().replace('X', '×');

export const sayDegrees = (degrees: number): string => `${plain(degrees, 2)}°`;
