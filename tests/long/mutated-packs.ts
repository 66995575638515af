import { join } from 'node:path';
import { mutatedPack, packIn } from '../property/packs/mutated-packs.ts';

/** `npm run long -- mutated-packs [packs] [seed]`: so many packs, each the small one with a few changes, are checked; says which answers were wrong, and how long the longest took. */
const packs = Number(process.argv[2] ?? 20_000);
const seed = Number(process.argv[3] ?? 1);
if (!Number.isInteger(packs) || packs < 1 || !Number.isInteger(seed)) {
  console.error('npm run long -- mutated-packs [packs] [seed], both whole numbers');
  process.exit(64);
}

const whole = packIn(join(import.meta.dirname, '../unit/db/fixtures/small-pack'));
let [sound, faults, warnings, wrong, longest] = [0, 0, 0, 0, 0];
const line = (done: number): string =>
  `${done} packs: ${sound} sound, ${faults} faults and ${warnings} warnings told, wrong answers: ${wrong}; the longest took ${Math.round(longest)} ms of the processor`;
for (let n = 0; n < packs; n += 1) {
  // Of the processor, so that what else the machine does is not counted.
  const began = process.cpuUsage();
  const one = await mutatedPack(whole, seed + n);
  const { user, system } = process.cpuUsage(began);
  longest = Math.max(longest, (user + system) / 1000);
  if (one.sound) sound += 1;
  faults += one.faults;
  warnings += one.warnings;
  if (one.wrong.length > 0) {
    wrong += 1;
    if (wrong <= 20) console.log(`  seed ${one.seed}: ${one.wrong.slice(0, 3).join('\n    ')}`);
  }
  if ((n + 1) % 2000 === 0) console.log(line(n + 1));
}
console.log(`seeds ${seed} to ${seed + packs - 1}: ${line(packs)}`);
process.exitCode = wrong === 0 ? 0 : 1;
