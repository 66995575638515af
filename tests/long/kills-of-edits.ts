import { built } from '../crash/child.ts';
import { type EditCounts, editDays } from '../crash/edit-days.ts';

/** `npm run long -- kills-of-edits [count] [first seed]`: so many programs that edit the atlas, undo and load other editions are killed, each atlas living through forty of them at most. */
const [count = '500', from = '1'] = process.argv.slice(2);
const program = await built('edit-days');
const counts: EditCounts = { kills: 0, done: 0, unsaid: 0, lost: [] };
for (let seed = Number(from); counts.kills < Number(count) && counts.lost.length === 0; seed += 1) {
  await editDays(program, seed, 120, Math.min(40, Number(count) - counts.kills), counts);
  console.log(`${counts.kills} kills: ${counts.done} changes said to be done are there, ${counts.unsaid} were there without being said`);
}
for (const one of counts.lost) console.error(one);
console.log(counts.lost.length === 0 ? 'Nothing was lost, and nothing half made.' : `${counts.lost.length} atlases were not whole.`);
process.exitCode = counts.lost.length === 0 ? 0 : 1;
