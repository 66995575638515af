import { compare, emptyTally } from '../oracle/agreement.ts';
import { randomCase } from '../oracle/random-atlas.ts';

/**
 * `npm run long -- made-up-atlases [atlases] [first seed]`: so many made-up atlases, each with a unit, are put to the reasoner and to clingo; says where the two differ, and what was asked. The seeds of
 * `npm test` are 1 to 660.
 */
const atlases = Number(process.argv[2] ?? 2000);
const first = Number(process.argv[3] ?? 1);
if (!Number.isInteger(atlases) || atlases < 1 || !Number.isInteger(first)) {
  console.error('npm run long -- made-up-atlases [atlases] [first seed], both whole numbers');
  process.exit(64);
}

const tally = emptyTally();
let differ = 0;
for (let n = 0; n < atlases; n += 1) {
  const found = await compare(randomCase(first + n), tally);
  if (found.length > 0) {
    differ += 1;
    if (differ <= 20)
      for (const { about, oracle, reasoner } of found.slice(0, 3)) console.log(`  seed ${first + n}: ${about}`, { oracle, reasoner });
  }
  if ((n + 1) % 200 === 0) console.log(`${n + 1} atlases: ${differ} answered differently; ${tally.verdicts} verdicts`);
}
console.log(`${atlases} atlases from seed ${first}: ${differ} answered differently; asked: ${JSON.stringify(tally)}`);
process.exitCode = differ === 0 ? 0 : 1;
