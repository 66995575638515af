import type { Store } from '../../db/index.ts';
import { type CasesWould, type RetoldProgress, wouldChange } from '../../reasoner/index.ts';
import type { CasesShown, NotMade } from '../bridge/change-calls.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { BroughtPacks } from './brought-packs.ts';
import { bothAtlases, casesJudged, versionIn } from './cases-would.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { packMoved } from './pack-moved.ts';
import { noJudging, Runs } from './runs.ts';

/**
 * The shop's own words in the atlas, and what would follow of a change of it.
 * @param shipped the folder of the packs that come with the program
 * @param data the data folder
 */
export const changeCalls = (store: Store, kept: KeptAtlas, shipped: string, data: string): Calls<'changes'> => {
  const come = new BroughtPacks(data);
  const both = (of: NotMade) =>
    bothAtlases(store, kept, () =>
      'edits' in of ? store.changes.after(of.edits) : 'undo' in of ? store.changes.afterUndo(of.undo) : packMoved(store, shipped, come, of),
    );
  const runs = new Runs<Of<RetoldProgress>, Of<CasesShown>>({ keep: 4 });
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
      const atlases = await both(of);
      if (!atlases.ok) return atlases;
      if (atlases.value === null) return well(null);
      const told = await store.cases.countTold();
      if (!told.ok) return told;
      return well({ ...wouldChange(atlases.value.before, atlases.value.after), cases: told.value });
    },
    'changes.retell': async ({ of }) => {
      const atlases = await both(of);
      if (!atlases.ok) return atlases;
      if (atlases.value === null)
        return refusal('edit-invalid', null, 'The change has faults, so nothing can be judged by it yet. Mend them first.');
      const judged = await casesJudged(store, atlases.value);
      if (!judged.ok) return judged;
      const { of: many, run } = judged.value;
      const { version } = atlases.value;
      return well({ token: runs.start(shown(run, version), { version, said: { judged: 0, of: many } }) });
    },
    'changes.retelling': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noJudging;
      const { version } = state.state === 'done' ? state.result : state.progress;
      const current = (await versionIn(store)) === version;
      return well(
        state.state === 'done'
          ? { state: 'done', current, result: state.result.said }
          : { state: 'running', current, progress: state.progress.said },
      );
    },
    'changes.stopRetelling': async ({ token }) => (runs.cancel(token) ? well(null) : noJudging),
  };
};

/** What is said of the atlas of this version. */
interface Of<T> {
  readonly version: string;
  readonly said: T;
}

/** More cases nobody reads beside a change, and a window takes them all in at once. */
const mostShown = 200;

/** The same with what a window shows of it. */
function* shown(
  run: Generator<RetoldProgress, CasesWould, boolean | undefined>,
  version: string,
): Generator<Of<RetoldProgress>, Of<CasesShown>, boolean | undefined> {
  let step = run.next();
  while (!step.done) step = run.next(yield { version, said: step.value });
  const { cases, ...counts } = step.value;
  return { version, said: { ...counts, cases: cases.slice(0, mostShown), differ: cases.length } };
}
