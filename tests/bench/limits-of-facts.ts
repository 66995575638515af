import type { Fact, Feature, Observation } from '../../reasoner/index.ts';
import { markKey } from '../../reasoner/plain/letters.ts';

type Range = readonly [number, number];

/** Facts and readings as ranges of numbers, for programs that know nothing but numbers: they agree where a range of the one meets that of the other. */
export class LimitsOfFacts {
  readonly #codes = new Map<string, number>();

  /** What a good or worn example may be read as, any one of these; null where nobody knows. */
  ofFact({ wear }: Feature, fact: Fact | undefined): readonly Range[] | null {
    switch (fact?.kind) {
      case undefined:
      case 'not known':
        return null;
      case 'count':
        return [[fact.from, fact.to]];
      case 'measure':
        return [[fact.nominal + fact.lower - (wear?.below ?? 0) - 1e-12, fact.nominal + fact.upper + (wear?.above ?? 0) + 1e-12]];
      case 'presence':
        return [twice(Number(fact.present))];
      case 'choice':
        return [...new Set(fact.anyOf)].map((option) => twice(this.#codeOf(option)));
      case 'mark': {
        const codes = [...fact.anyOf.map((text) => this.#codeOf(markKey(text))), ...(fact.blank ? [-1] : [])];
        return [...new Set(codes)].map(twice);
      }
    }
  }

  ofReading({ value, sure }: Pick<Observation, 'value' | 'sure'>): Range {
    switch (value.kind) {
      case 'measure': {
        const u = sure.kind === 'measured' ? sure.u : 0;
        return [value.value - 2 * u, value.value + 2 * u];
      }
      case 'count':
        return [value.from, value.to];
      case 'presence':
        return twice(Number(value.present));
      case 'choice':
        return twice(this.#codeOf(value.option));
      case 'mark':
        return twice(value.text === null ? -1 : this.#codeOf(markKey(value.text)));
    }
  }

  #codeOf(text: string): number {
    const known = this.#codes.get(text) ?? this.#codes.size;
    this.#codes.set(text, known);
    return known;
  }
}

const twice = (value: number): Range => [value, value];
