import {
  type Atlas,
  asId,
  type Fact,
  type Feature,
  type Model,
  type Observation,
  type ObservationId,
  type Part,
  type Sheet,
  type SheetId,
  type SlotId,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';

const kinds = [
  'six entries',
  'one slot swapped',
  'six entries',
  'plate alone',
  'looked through',
  'six entries',
  'two slots swapped',
] as const;

/** A unit of the atlas, and what was seen of it. */
export interface WildSheet {
  readonly kind: (typeof kinds)[number];
  readonly sheet: Sheet;
  /** What it was built as, and is offered as. */
  readonly model: Model;
}

/**
 * Sheets of units of the atlas, of each kind in turn: six entries; thirty, of a unit in which one slot or two hold a part of another model; all
 * that is on the plate; and thirty of a unit that is what it says. Sizes are read as the instruments can: within two standard uncertainties of what the
 * unit's own size is, which lies anywhere within the limits of its part.
 */
export const wildSheets = (atlas: Atlas, count: number, seed = 1): readonly WildSheet[] => {
  const dice = new Dice(seed);
  const looker = new Looker(atlas, dice);
  const whole = atlas.models.filter(({ allowed }) => atlas.slots.every(({ id }) => allowed.some(({ slot }) => slot === id)));
  return Array.from({ length: count }, (_, n) => {
    const kind = kinds[n % kinds.length] as WildSheet['kind'];
    const model = dice.one(whole);
    const swapped = new Set<SlotId>(
      dice.some(
        atlas.slots.filter(({ group }) => group !== 'plate').map(({ id }) => id),
        kind === 'one slot swapped' ? 1 : kind === 'two slots swapped' ? 2 : 0,
      ),
    );
    const parts = new Map(atlas.slots.map(({ id }) => [id, looker.partOf(swapped.has(id) ? dice.one(whole) : model, id)]));
    const seen = looker.observationsOf(parts, kind === 'plate alone' ? 'plate' : kind === 'six entries' ? 6 : 30);
    const sheet: Sheet = {
      id: asId<SheetId>(`wild-${n + 1}`),
      title: `Unit ${n + 1}`,
      story: '',
      kind: 'found',
      claimed: model.name,
      claimedMaker: null,
      observations: seen,
      absent: [],
      chosen: {},
    };
    return { kind, sheet, model };
  });
};

class Looker {
  readonly #atlas: Atlas;
  readonly #dice: Dice;
  readonly #parts: ReadonlyMap<Part['id'], Part>;
  readonly #uncertainty: ReadonlyMap<string, number>;

  constructor(atlas: Atlas, dice: Dice) {
    this.#atlas = atlas;
    this.#dice = dice;
    this.#parts = new Map(atlas.parts.map((part) => [part.id, part]));
    this.#uncertainty = new Map((atlas.instruments ?? []).map(({ name, u }) => [name, u]));
  }

  /** Any part the model lists there. */
  partOf({ allowed }: Model, slot: SlotId): Part {
    return this.#parts.get(this.#dice.one(allowed.filter((entry) => entry.slot === slot)).part) as Part;
  }

  /** So many features of these parts seen, no two of one feature; or every one of the plate. Fewer where fewer are known. */
  observationsOf(parts: ReadonlyMap<SlotId, Part>, which: number | 'plate'): Observation[] {
    const plates = new Set(this.#atlas.slots.filter(({ group }) => group === 'plate').map(({ id }) => id));
    const features =
      which === 'plate'
        ? this.#atlas.features.filter(({ slot }) => plates.has(slot))
        : this.#dice.some(this.#atlas.features, Math.min(this.#atlas.features.length, which * 2));
    const seen = features.flatMap((feature): Observation[] => {
      const fact = parts.get(feature.slot)?.facts[feature.id];
      const read = fact === undefined ? null : this.#read(feature, fact);
      return read === null ? [] : [{ id: asId<ObservationId>(`o:${feature.id}`), slot: feature.slot, feature: feature.id, ...read }];
    });
    return which === 'plate' ? seen : this.#dice.some(seen, which);
  }

  #read(feature: Feature, fact: Fact): Pick<Observation, 'value' | 'sure'> | null {
    const sure = { kind: 'seen' } as const;
    switch (fact.kind) {
      case 'not known':
        return null;
      case 'count': {
        const count = this.#dice.whole(fact.from, fact.to);
        return { value: { kind: 'count', from: count, to: count }, sure };
      }
      case 'choice':
        return { value: { kind: 'choice', option: this.#dice.one(fact.anyOf) }, sure };
      case 'presence':
        return { value: { kind: 'presence', present: fact.present }, sure };
      case 'mark': {
        if (fact.anyOf.length === 0 && !fact.blank) return null;
        const none = fact.blank && (fact.anyOf.length === 0 || this.#dice.often(30));
        return { value: { kind: 'mark', text: none ? null : this.#dice.one(fact.anyOf) }, sure };
      }
      case 'measure': {
        const u = this.#uncertainty.get(feature.instrument ?? '');
        if (u === undefined) return null;
        const own = fact.nominal + this.#between(fact.lower, fact.upper);
        const value = Math.round((own + this.#between(-1.9, 1.9) * u) * 1e4) / 1e4;
        const { from, to } = feature.plausible ?? { from: 0, to: Number.POSITIVE_INFINITY };
        return value < from || value > to ? null : { value: { kind: 'measure', value }, sure: { kind: 'measured', u } };
      }
    }
  }

  #between(from: number, to: number): number {
    return from + (this.#dice.whole(0, 2 ** 30) / 2 ** 30) * (to - from);
  }
}
