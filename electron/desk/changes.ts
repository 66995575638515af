import { checkSheet, type Edit, type Outcome, type Store } from '../../db/index.ts';
import { type Atlas, compileAtlas, type RetellingProgress, sheetsThatWould, wouldChange } from '../../reasoner/index.ts';
import type { CasesRetold } from '../bridge/change-calls.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { type KeptAtlas, knownIn } from './kept-atlas.ts';
import { noJudging, Runs } from './runs.ts';

/** The shop's own words in the atlas. */
export const changeCalls = (store: Store, kept: KeptAtlas): Calls<'changes'> => {
  const runs = new Runs<RetellingProgress, CasesRetold>({ keep: 4 });
  const after = (of: { readonly edits: readonly Edit[] } | { readonly undo: number }): Promise<Outcome<Atlas | null>> =>
    'edits' in of ? store.changes.after(of.edits) : store.changes.afterUndo(of.undo);
  return {
    'changes.look': ({ edits }) => store.changes.look(edits),
    'changes.make': ({ edits, ...saying }) => store.changes.make(edits, saying),
    'changes.list': ({ before, limit, of }) => store.changes.list(before, limit, of),
    'changes.one': ({ change }) => store.changes.one(change),
    'changes.lookUndo': ({ change }) => store.changes.lookUndo(change),
    'changes.undo': ({ change, rest, ...saying }) => store.changes.undo(change, rest, saying),
    'changes.entry': ({ list, id }) => store.changes.entry(list, id),
    'changes.stood': ({ until }) => store.changes.stood(until),
    'changes.stoodEntry': ({ until, list, id }) => store.changes.stoodEntry(until, list, id),
    'changes.would': async ({ of }) => {
      const atlas = await after(of);
      if (!atlas.ok) return atlas;
      if (atlas.value === null) return well(null);
      const told = await store.cases.countTold();
      if (!told.ok) return told;
      return well({ ...wouldChange(await kept.now(), compileAtlas(atlas.value)), cases: told.value });
    },
    'changes.retell': async ({ of }) => {
      const atlas = await after(of);
      if (!atlas.ok) return atlas;
      if (atlas.value === null)
        return refusal('edit-invalid', null, 'These edits have faults, so nothing can be judged by them yet. Mend them first.');
      const told = await store.cases.lastTold();
      if (!told.ok) return told;
      const [now, then] = [await kept.now(), compileAtlas(atlas.value)];
      const sheets = told.value.map(({ saved }) => ({
        sheet: saved,
        known: [now, then].every((each) => checkSheet(saved, knownIn(each)).ok),
      }));
      return well({ token: runs.start(sheetsThatWould(now, then, sheets), { judged: 0, of: sheets.length }) });
    },
    'changes.retelling': async ({ token }) => {
      const state = runs.stateOf(token);
      return state === null ? noJudging : well(state);
    },
    'changes.stopRetelling': async ({ token }) => (runs.cancel(token) ? well(null) : noJudging),
  };
};
