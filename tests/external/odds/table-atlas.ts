import {
  type Atlas,
  type CompiledAtlas,
  compileAtlas,
  type Fact,
  type Feature,
  type Observation,
  type Seen,
  type Sheet,
} from '../../../reasoner/index.ts';

/** A published table put as an atlas: its columns are features, its rows are parts, its classes are models that list their rows. */
export interface Table {
  readonly slots: readonly string[];
  readonly features: readonly {
    readonly id: string;
    readonly slot: string;
    readonly kind: Feature['kind'];
    readonly options?: readonly string[];
    readonly minutes?: number;
  }[];
  readonly parts: readonly { readonly id: string; readonly slot: string; readonly facts: Readonly<Record<string, Fact>> }[];
  /** A model is listed `times` over, since models have equal odds: nine alike beside five alike are 9/14 and 5/14. */
  readonly models: readonly { readonly id: string; readonly times: number; readonly lists: readonly string[] }[];
}

const plain = <T>(value: unknown): T => value as T;

export const atlasOfTable = ({ slots, features, parts, models }: Table): CompiledAtlas => {
  const slotOf = new Map(parts.map(({ id, slot }) => [id, slot]));
  return compileAtlas(
    plain<Atlas>({
      edition: 'a published table',
      sources: [{ id: 'table', title: 'the table', kind: 'published' }],
      stages: [{ id: 'as-received', name: 'as received', minutes: 0, after: [] }],
      slots: slots.map((id) => ({ id, name: id, group: 'core', stage: 'as-received', swapMinutes: 1 })),
      ports: [],
      features: features.map(({ id, slot, kind, options, minutes = 1 }) => ({
        id,
        slot,
        name: id,
        kind,
        stage: 'as-received',
        minutes,
        ...(options ? { options: options.map((option) => ({ id: option, name: option })) } : {}),
      })),
      joints: [],
      makers: [{ id: 'one', name: 'One', tradeNames: [], plateRule: false, grammar: null, source: 'table' }],
      families: models.map(({ id }) => ({
        id,
        name: id,
        maker: 'one',
        from: null,
        to: null,
        descendsFrom: [],
        succeeds: [],
        patternOf: [],
        about: '',
        source: 'table',
      })),
      generations: [],
      models: models.flatMap(({ id, times, lists }) =>
        Array.from({ length: times }, (_, i) => ({
          id: `${id}-${i}`,
          name: `${id} ${i}`,
          family: id,
          generation: null,
          patternOf: null,
          from: null,
          to: null,
          allowed: lists.map((part) => ({ slot: slotOf.get(part), part, role: 'names' })),
          source: 'table',
        })),
      ),
      parts: parts.map(({ id, slot, facts }) => ({ id, slot, name: id, maker: 'one', numbers: [id], facts, source: 'table' })),
    }),
  );
};

export const seeing = (atlas: CompiledAtlas, seen: Readonly<Record<string, Seen>>): Sheet =>
  plain<Sheet>({
    id: 'row',
    title: '',
    story: '',
    kind: 'found',
    claimed: null,
    claimedMaker: null,
    observations: Object.entries(seen).map(([feature, value]) =>
      plain<Observation>({ id: feature, slot: atlas.features.get(plain(feature))?.slot, feature, value, sure: { kind: 'seen' } }),
    ),
    absent: [],
    chosen: {},
  });

/** A table's rows say all there is: nothing is of another make, nothing is swapped, nothing misread. */
export const asTheTableSays = { stranger: 0, swapped: 0, unlisted: 0, misfit: 0, slip: 0 } as const;

/** Which class a name is of: names are `service:<class>-<number>`. */
export const classOf = (names: readonly string[]): string => {
  const classes = new Set(names.map((name) => name.replace(/^service:/, '').replace(/-\d+$/, '')));
  if (classes.size !== 1) throw new Error(`names of more than one class: ${[...classes].join(', ')}`);
  return [...classes][0] as string;
};
