import type { Store } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';

/** The shop's own words in the atlas. */
export const changeCalls = (store: Store): Calls<'changes'> => ({
  'changes.look': ({ edits }) => store.changes.look(edits),
  'changes.make': ({ edits, ...saying }) => store.changes.make(edits, saying),
  'changes.list': ({ before, limit, of }) => store.changes.list(before, limit, of),
  'changes.one': ({ change }) => store.changes.one(change),
  'changes.lookUndo': ({ change }) => store.changes.lookUndo(change),
  'changes.undo': ({ change, rest, ...saying }) => store.changes.undo(change, rest, saying),
  'changes.entry': ({ list, id }) => store.changes.entry(list, id),
});
