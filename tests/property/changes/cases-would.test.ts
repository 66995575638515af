import { expect, test } from 'vitest';
import type { Edit } from '../../../db/index.ts';
import type { CallResult } from '../../../electron/bridge/contract.ts';
import type { Desk } from '../../../electron/bridge/desk.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { asId, type Fact, type Model, type Part, type SheetId, type Told } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { demoPack, expandCode, freshStore, valueIn, vocabularyPack } from '../../unit/db/kit.ts';

/** Units of every kind of the demo: named, ruled out, a hybrid, a copy, entries that contradict one another. */
const samples = ['s05-one-blade-more', 's07-true-petrel', 's10-two-counts', 's13-rebuilt-tern', 's14-honest-hybrid'];
const cases = samples.map((id) => asId<SheetId>(`own-${id}`));

/** A desk over the demo atlas with the cases in it. */
const deskWithCases = async (): Promise<{
  readonly desk: Desk;
  readonly seen: ReadonlySet<string>;
  readonly parts: readonly Part[];
  readonly models: readonly Model[];
}> => {
  const store = await freshStore({ expandCode });
  for (const pack of [vocabularyPack, demoPack]) valueIn(await store.packs.load(pack));
  const desk = openDesk(store);
  const [left, seen] = [new Set<string>(), new Set<string>()];
  for (const id of samples) {
    const { sheet } = valueIn(await desk['sheets.open']({ id: asId(id) }));
    valueIn(await desk['sheets.save']({ sheet: { ...sheet, id: asId(`own-${id}`) }, who: '', madeAgainst: null }));
    for (const { feature } of sheet.observations) seen.add(feature);
    const found = valueIn(await desk['verdict.of']({ sheet }));
    if (found.kind === 'verdict')
      for (const { slot, left: many } of found.slots)
        if (many < 3) {
          const { rows } = valueIn(await desk['verdict.parts']({ sheet, slot, of: 'left', from: 0, count: 3 }));
          for (const { part } of rows) left.add(part);
        }
  }
  const { parts, models } = await store.atlas.read();
  const listed = new Set<string>(models.flatMap(({ allowed }) => allowed.map(({ part }) => part)));
  // Those that matter to some case: of other parts an edit would hardly ever tell.
  const counted = (facts: Part['facts']) => Object.entries(facts).some(([feature, { kind }]) => kind === 'count' && seen.has(feature));
  return { desk, seen, parts: parts.filter(({ id, facts }) => left.has(id) && listed.has(id) && counted(facts)), models };
};

interface Entry {
  readonly name: string;
  readonly facts: Readonly<Record<string, Fact>>;
}

/** What a case may be called and what became of its claim, opened and judged anew. */
const judgedIn = async (desk: Desk, id: SheetId): Promise<string> => {
  const { sheet } = valueIn(await desk['sheets.open']({ id }));
  const found = valueIn(await desk['verdict.of']({ sheet }));
  if (found.kind === 'contradiction') return 'contradiction';
  const { honest, names, claim } = found;
  const called = honest.map((one) => names.find(({ name }) => name.id === one)?.name.text);
  return JSON.stringify([called, claim === null ? null : [claim.text, claim.status]]);
};

const saidOf = ({ contradiction, honest, claim }: Told): string =>
  contradiction ? 'contradiction' : JSON.stringify([honest, claim === null ? null : [claim.text, claim.status]]);

/** What the window is told of edits before they are made. */
const wouldBeTold = async (desk: Desk, edits: Edit[]): Promise<Extract<CallResult<'changes.retelling'>, { state: 'done' }>> => {
  const { token } = valueIn(await desk['changes.retell']({ of: { edits } }));
  for (;;) {
    const state = valueIn(await desk['changes.retelling']({ token }));
    if (state.state === 'done') return state;
    await new Promise((turn) => setImmediate(turn));
  }
};

test('[H3] what saved cases would be told of edits is what they are told, opened anew, once the edits are made', async () => {
  const { desk, seen, parts, models } = await deskWithCases();
  const dice = new Dice(4);
  const pick = <T>(of: readonly T[]): T => of[dice.whole(0, of.length - 1)] as T;
  const entryOf = async (list: 'parts' | 'models', id: string): Promise<Entry> =>
    valueIn(await desk['changes.entry']({ list, id })).entry as unknown as Entry;

  /** One more of what is counted, a fact no longer known, a model of another name, a part let go of by a model. */
  const edit = async (kind: number): Promise<Edit> => {
    const part = pick(parts);
    const model = pick(models.filter(({ allowed }) => allowed.some((one) => one.part === part.id)));
    if (kind === 3) return { disallow: { model: model.id, part: part.id } };
    if (kind === 2) {
      const entry = await entryOf('models', model.id);
      return { list: 'models', put: { ...entry, name: `${entry.name} of old` } };
    }
    const entry = await entryOf('parts', part.id);
    const [feature, fact] = pick(
      Object.entries(entry.facts).filter(([name, one]) => (kind === 0 ? one.kind === 'count' && seen.has(name) : one.kind !== 'not known')),
    );
    const more: Fact = fact.kind === 'count' ? { kind: 'count', from: fact.from + 1, to: fact.to + 1 } : { kind: 'not known' };
    return { list: 'parts', put: { ...entry, facts: { ...entry.facts, [feature]: more } } };
  };

  const told = new Map<SheetId, string>();
  for (const id of cases) told.set(id, await judgedIn(desk, id));
  let [otherwise, alike, head] = [0, 0, valueIn(await desk['changes.entry']({ list: 'parts', id: pick(parts).id })).head];
  for (let turn = 0; turn < 2; turn += 1) {
    const edits: Edit[] = [];
    for (const kind of [0, 0, 0, 1, 2, 3]) edits.push(await edit(kind));
    const { result, current } = await wouldBeTold(desk, edits);
    expect([current, result.complete, result.judged, result.of]).toEqual([true, true, cases.length, cases.length]);
    ({ head } = valueIn(await desk['changes.make']({ edits, who: '', why: '', source: '', head })));
    for (const id of cases) {
      const [was, is] = [told.get(id), await judgedIn(desk, id)];
      const row = result.cases.find(({ sheet }) => sheet === id);
      // The words for the ticket may differ where neither name nor claim does.
      if (row === undefined || (row.how === 'told otherwise' && row.differs.join() === 'ticket')) {
        expect([turn, id, is]).toEqual([turn, id, was]);
        alike += 1;
      } else {
        expect([turn, id, row.how]).toEqual([turn, id, 'told otherwise']);
        if (row.how === 'told otherwise') expect([turn, id, saidOf(row.is), saidOf(row.would)]).toEqual([turn, id, was, is]);
        expect([turn, id, is]).not.toEqual([turn, id, was]);
        otherwise += 1;
      }
      told.set(id, is);
    }
    expect(result.same + result.differ).toBe(cases.length);
  }
  // The edits told.
  expect([otherwise >= 3, alike >= 3], `${otherwise} told otherwise, ${alike} alike`).toEqual([true, true]);
});
