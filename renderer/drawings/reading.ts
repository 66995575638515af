import type { Fact, FeatureId, FeatureKind } from '../../reasoner/index.ts';
import { plain, roundedTo } from '../values/figures.ts';
import { sayMeasure } from '../values/lengths.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { sayCount } from '../values/sayings.ts';
import { Pen } from './pen.ts';

/** What is known of the part that is drawn. A feature that is not there is not known. */
export type Facts = Readonly<Record<FeatureId, Fact>>;

/** The roles of a drawing, and the kind of feature that plays each. */
export type Roles = Readonly<Record<string, FeatureKind>>;

/** Which feature plays which role. */
export type Feeds = Readonly<Record<string, FeatureId | undefined>>;

/** How an option of a choice is called. */
export type OptionName = (feature: FeatureId, option: string) => string;

type RolesOf<R extends Roles, Kind extends FeatureKind> = { [Role in keyof R]: R[Role] extends Kind ? Role & string : never }[keyof R];

/** Who asks gives a role; where no feature is fed to it there is none to name, and it is not known. */
interface Asked {
  readonly feature: FeatureId | undefined;
}

/** A size to draw by. Where the atlas knows none, `value` only stands in, so that there is something to put the question mark on. */
export interface Size extends Asked {
  /** mm or degrees; for a measure its nominal. */
  readonly value: number;
  readonly known: boolean;
  /** `46.3 mm`, or `?`. */
  readonly said: string;
}

export interface Count extends Asked {
  /** The least of them; null where it is not known. */
  readonly value: number | null;
  /** `10`, `10 or 11`, `?`. */
  readonly said: string;
}

export interface Choice<Form extends string = string> extends Asked {
  /** What is found on good examples; empty where it is not known. */
  readonly anyOf: readonly string[];
  /** The one thing it is, where there is one. */
  readonly only: string | null;
  /** That thing where the drawing knows how to draw it. */
  readonly form: Form | null;
  /** What it may be, as it is called: `M6 or M8`. Empty where it is not known. */
  readonly said: string;
}

export interface Presence extends Asked {
  readonly present: boolean | null;
}

export interface Marks extends Asked {
  /** Letters it may bear; null among them says that good examples may bear none. Empty where it is not known. */
  readonly anyOf: readonly (string | null)[];
}

/** Reads facts for a drawing by the roles it has, and keeps account of which were asked for and which of them are not known. */
export class Reading<R extends Roles = Roles> {
  readonly #feeds: Feeds;
  readonly #facts: Facts;
  readonly #optionName: OptionName;
  readonly #unit: LengthUnit;
  readonly #leastReach: number;
  readonly #asked = new Set<FeatureId>();
  readonly #unknown = new Set<FeatureId>();
  #sizes = 0;

  /** @param leastReach drawn as small as a part of this reach would be, mm: parts side by side are shown to one scale */
  constructor(
    feeds: Feeds,
    facts: Facts,
    optionName: OptionName,
    { unit = 'mm', leastReach = 0 }: { readonly unit?: LengthUnit; readonly leastReach?: number } = {},
  ) {
    this.#feeds = feeds;
    this.#facts = facts;
    this.#optionName = optionName;
    this.#unit = unit;
    this.#leastReach = leastReach;
  }

  /** A pen for a part that reaches about so far, mm. */
  pen(reach: number): Pen {
    return new Pen(Math.max(reach, this.#leastReach), this.#unit);
  }

  /** Whether any feature plays this role. */
  isFed(role: keyof R & string): boolean {
    return this.#feeds[role] !== undefined;
  }

  size(role: RolesOf<R, 'measure'>, standIn: number, kind: 'mm' | 'deg' = 'mm'): Size {
    const { feature, fact } = this.#fact(role);
    if (fact?.kind === 'measure') {
      if (kind === 'mm') this.#sizes += 1;
      return { feature, value: fact.nominal, known: true, said: sayMeasure(roundedTo(fact.nominal, 3), kind, this.#unit) };
    }
    this.#isUnknown(feature);
    return { feature, value: standIn, known: false, said: '?' };
  }

  count(role: RolesOf<R, 'count'>): Count {
    const { feature, fact } = this.#fact(role);
    if (fact?.kind === 'count') return { feature, value: fact.from, said: sayCount(fact.from, fact.to) };
    this.#isUnknown(feature);
    return { feature, value: null, said: '?' };
  }

  /** @param forms ids of the options the drawing draws apart */
  choice<const Form extends string = never>(role: RolesOf<R, 'choice'>, forms: readonly Form[] = []): Choice<Form> {
    const { feature, fact } = this.#fact(role);
    if (fact?.kind === 'choice' && feature !== undefined) {
      const only = fact.anyOf.length === 1 ? (fact.anyOf[0] ?? null) : null;
      return {
        feature,
        anyOf: fact.anyOf,
        only,
        form: forms.find((form) => form === only) ?? null,
        said: fact.anyOf.map((option) => this.#optionName(feature, option)).join(' or '),
      };
    }
    this.#isUnknown(feature);
    return { feature, anyOf: [], only: null, form: null, said: '' };
  }

  presence(role: RolesOf<R, 'presence'>): Presence {
    const { feature, fact } = this.#fact(role);
    if (fact?.kind === 'presence') return { feature, present: fact.present };
    this.#isUnknown(feature);
    return { feature, present: null };
  }

  marks(role: RolesOf<R, 'mark'>): Marks {
    const { feature, fact } = this.#fact(role);
    if (fact?.kind === 'mark') return { feature, anyOf: [...fact.anyOf, ...(fact.blank ? [null] : [])] };
    this.#isUnknown(feature);
    return { feature, anyOf: [] };
  }

  say(mm: number): string {
    return sayMeasure(roundedTo(mm, 2), 'mm', this.#unit);
  }

  /** What the scene says of itself. */
  account(): { readonly features: readonly FeatureId[]; readonly unknown: readonly FeatureId[]; readonly toScale: boolean } {
    return { features: [...this.#asked], unknown: [...this.#unknown], toScale: this.#sizes > 0 };
  }

  #isUnknown(feature: FeatureId | undefined): void {
    if (feature !== undefined) this.#unknown.add(feature);
  }

  #fact(role: string): Asked & { readonly fact: Fact | undefined } {
    const feature = this.#feeds[role];
    if (feature === undefined) return { feature, fact: undefined };
    this.#asked.add(feature);
    return { feature, fact: this.#facts[feature] };
  }
}

/** The bolt or thread size an option names: `M6` and `M12×1.5` are 6 and 12 mm across. */
export const acrossOf = ({ only, said }: Choice): number | null => {
  const across = only === null ? undefined : /^M(\d+(?:\.\d+)?)/.exec(said)?.[1];
  return across === undefined ? null : Number(across);
};

export const sayDegrees = (degrees: number): string => `${plain(degrees, 2)}°`;
