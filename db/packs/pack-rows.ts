import { type CellKey, type Cells, keyOf, stepsOf } from '../atlas/cell.ts';
import type { Named, Numbers } from '../atlas/list.ts';
import { everyList, listsAndParts } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import { type RowChange, rowsBetween, rowsOf, type TableRow } from '../atlas/rows.ts';
import type { Effect } from '../changes/change.ts';
import type { OwnWords } from '../changes/own-words.ts';
import type { termsOf } from '../graph/search-terms.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import { sampleRow } from '../sheets/rows.ts';
import type { Going } from './dangling.ts';
import type { Term } from './ground.ts';
import type { LoadStep } from './load-step.ts';

/** What a pack says at one time: null when the atlas holds no such pack. */
export interface State {
  readonly pack: Pack;
  readonly cells: Cells;
  /** Where the shop says otherwise than the pack itself. */
  readonly words: OwnWords;
}

/** What is read beforehand, so that the rows of a change can be made without reading. */
export interface Ground {
  readonly pack: string;
  /** For both states: a number stays with its id as long as any edition in between has it. */
  readonly numbers: Numbers;
  /** Keys of `kind id` of shared entries other packs hold. */
  readonly heldByOthers: ReadonlySet<string>;
  /** What can be looked up of each node, as it is kept. */
  readonly terms: ReadonlyMap<string, readonly Term[]>;
  readonly nextTerm: number;
  /** What the nodes of the pack are to be looked up by after the change. */
  readonly termsAfter: ReturnType<typeof termsOf>;
}

/** The ids a change touches, by list; an entry is touched by any of its cells. */
type Touched = ReadonlyMap<string, ReadonlySet<string>>;

export const touchedBy = (effect: Effect): Touched => {
  const touched = new Map<string, Set<string>>();
  let before = '/';
  for (const key of effect.keys()) {
    // Cells of an entry mostly come one after the other.
    if (key.startsWith(before)) continue;
    const [list, id, more] = stepsOf(key);
    if (list !== 'allowed') before = `${list}/${id}/`;
    const ids = touched.get(list) ?? new Set();
    touched.set(list, ids);
    ids.add(list === 'allowed' ? `${id} ${more}` : id);
  }
  return touched;
};

/** The changes of rows that lead from one state of a pack to the other, for all that a change touches and nothing else. */
export function* rowChanges(
  before: State | null,
  after: State | null,
  touched: Touched,
  ground: Ground,
  step: (at: LoadStep) => void,
): Generator<RowChange> {
  const steps = new Map<boolean, LoadStep>([
    [true, 'terms'],
    [false, 'names'],
  ]);
  for (const shared of [true, false]) {
    step(steps.get(shared) as LoadStep);
    for (const list of everyList) if (list.shared === shared) yield* entryChanges(list, before, after, touched, ground);
  }
  step('parts');
  yield* entryChanges(listsAndParts.at(-1) as AnyList, before, after, touched, ground);
  yield rowsBetween(sits(before, touched, ground), sits(after, touched, ground));
  step('sheets');
  yield rowsBetween(samples(before, touched, ground), samples(after, touched, ground));
  step('search');
  yield* termChanges(before, touched, ground);
}

type AnyList = (typeof listsAndParts)[number];

function* entryChanges(list: AnyList, before: State | null, after: State | null, touched: Touched, ground: Ground): Generator<RowChange> {
  const ids = touched.get(list.name);
  if (ids === undefined) return;
  const [was, is] = [before, after].map((state) => byId(state?.pack[list.name] ?? [], ids));
  const rows = (state: State | null, entry: Named | undefined): TableRow[] =>
    state === null || entry === undefined
      ? []
      : rowsOf(list, entry, {
          pack: ground.pack,
          numbers: ground.numbers,
          place: placeIn(state.cells, keyOf(list.name, entry.id)),
          lineAt: (field, key) => placeIn(state.cells, keyOf(list.name, entry.id, field, key)),
          heldByOthers: ground.heldByOthers.has(`${list.one} ${entry.id}`),
        });
  // In the order of the pack, those that are gone first.
  for (const id of [...(was as Entries).keys()].filter((gone) => !(is as Entries).has(gone)))
    yield rowsBetween(rows(before, was?.get(id)), []);
  for (const [id, entry] of is as Entries) yield rowsBetween(rows(before, was?.get(id)), rows(after, entry));
}

type Entries = ReadonlyMap<string, Named>;
const byId = (entries: readonly Named[], ids: ReadonlySet<string>): Entries =>
  new Map(entries.flatMap((entry) => (ids.has(entry.id) ? [[entry.id, entry]] : [])));

const placeIn = (cells: Cells, key: CellKey): number => {
  const at = cells.get(key)?.at;
  if (at === undefined) throw new Error(`the cell ${key} has no place`);
  return at;
};

const sits = (state: State | null, touched: Touched, { pack, numbers }: Ground): TableRow[] =>
  (state?.pack.allowed ?? []).flatMap(({ model, part, role }) =>
    touched.get('allowed')?.has(`${model} ${part}`) === true
      ? [{ table: t.sits, row: { model: numbers.of('models', model), part: numbers.of('parts', part), role, pack } }]
      : [],
  );

const samples = (state: State | null, touched: Touched, { pack }: Ground): TableRow[] =>
  (state?.pack.sheets ?? []).flatMap((sheet) =>
    state !== null && touched.get('sheets')?.has(sheet.id) === true
      ? [{ table: t.sheets, row: { ...sampleRow(sheet, pack, placeIn(state.cells, keyOf('sheets', sheet.id))) } }]
      : [],
  );

/** What a node may be looked up by keeps its row where there was one. */
function* termChanges(before: State | null, touched: Touched, ground: Ground): Generator<RowChange> {
  let next = ground.nextTerm;
  const left = new Map(ground.terms);
  for (const [key, terms] of termsByNode(ground.termsAfter, touched)) {
    const held = left.get(key) ?? [];
    left.delete(key);
    yield rowsBetween(
      held.map((row) => ({ table: t.searchTerms, row: { ...row } })),
      terms.map((row, index) => ({ table: t.searchTerms, row: { ...row, n: held[index]?.n ?? next++ } })),
    );
  }
  if (before === null) return;
  for (const held of left.values())
    yield rowsBetween(
      held.map((row) => ({ table: t.searchTerms, row: { ...row } })),
      [],
    );
}

const listOfNode = { maker: 'makers', family: 'families', generation: 'generations', model: 'models', part: 'parts' } as const;

const termsByNode = (terms: ReturnType<typeof termsOf>, touched: Touched) =>
  groupBy(
    terms.filter(({ nodeKind, nodeId }) => touched.get(listOfNode[nodeKind])?.has(nodeId) === true),
    ({ nodeKind, nodeId }) => `${nodeKind} ${nodeId}`,
  );

function* goneIn(effect: Effect): Generator<CellKey> {
  for (const [key, { after }] of effect) if (after === null) yield key;
}

/** What goes out of the tables of lists, by what other rows refer to it by: entries nobody else holds. */
export const goingIn = (effect: Effect, { numbers, heldByOthers }: Pick<Ground, 'numbers' | 'heldByOthers'>): Going[] => {
  const gone = groupBy(
    [...goneIn(effect)].map(stepsOf).filter(([, , more]) => more === undefined),
    ([list]) => list,
  );
  return listsAndParts.flatMap((list): Going[] => {
    const ids = (gone.get(list.name) ?? []).map(([, id]) => id).filter((id) => !(list.shared && heldByOthers.has(`${list.one} ${id}`)));
    const { numbered } = list;
    return ids.length === 0 ? [] : [{ table: list.table, keys: numbered === null ? ids : ids.map((id) => numbers.of(numbered, id)) }];
  });
};
