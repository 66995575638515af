import { type Interleaved, interleaved } from '../property/writers/interleaved.ts';

/** `npm run long -- two-writers [saves] [seed]`: three windows of two programs save into one file until so many saves were acknowledged; says what was lost unseen. */
const saves = Number(process.argv[2] ?? 20_000);
const seed = Number(process.argv[3] ?? 1);
if (!Number.isInteger(saves) || saves < 1 || !Number.isInteger(seed)) {
  console.error('npm run long -- two-writers [saves] [seed], both whole numbers');
  process.exit(64);
}

const line = (so: Interleaved): string =>
  `${so.saves} saves, ${so.atOnce} steps of two at once, told ${so.told}, joined ${so.merged}, decided ${so.decided}, removed ${so.removed}, saved anew after that ${so.anew}, lost unseen: ${so.lostUnseen.length}`;

let next = 1000;
const done = await interleaved({
  seed,
  saves,
  onRound: (so) => {
    if (so.saves < next) return;
    next = so.saves + 1000;
    console.log(line(so));
  },
});
console.log(`seed ${seed}: ${line(done)}`);
for (const one of done.lostUnseen.slice(0, 20)) console.log(`  ${one}`);
process.exitCode = done.lostUnseen.length === 0 ? 0 : 1;
