import { built } from '../crash/child.ts';
import { noCounts, shopDays } from '../crash/days.ts';

/** `npm run long -- kills [count] [first seed]`: so many programs that save, photograph, back up, restore and load packs are killed, each atlas living through twenty of them. */
const [count = '800', from = '1'] = process.argv.slice(2);
const wanted = Number(count);
const livesThrough = 20;
const program = await built('shop-days');
const counts = noCounts();
for (let seed = Number(from); counts.kills < wanted && counts.lost.length === 0; seed += 1) {
  await shopDays(program, seed, Math.min(livesThrough, wanted - counts.kills), counts);
  const during = Object.entries(counts.during).map(([what, times]) => `${what} ${times}`);
  console.log(
    `${counts.kills} kills (during ${during.join(', ')}): ${counts.acknowledged} things said to be done are there; of those under way ${counts.unsaid.done} were done, ${counts.unsaid.undone} were not; ${counts.backups} backups sound`,
  );
}
for (const one of counts.lost) console.error(one);
console.log(counts.lost.length === 0 ? 'Nothing was lost.' : `${counts.lost.length} things were lost.`);
process.exitCode = counts.lost.length === 0 ? 0 : 1;
