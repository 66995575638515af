import { mutatedTables } from '../property/tables/mutated-tables.ts';

/** `npm run long -- mutated-tables [tables] [seed]`: so many mutated spreadsheets are read; says what was thrown, and what came in or went out that must not. */
const tables = Number(process.argv[2] ?? 20_000);
const seed = Number(process.argv[3] ?? 1);
if (!Number.isInteger(tables) || tables < 1 || !Number.isInteger(seed)) {
  console.error('npm run long -- mutated-tables [tables] [seed], both whole numbers');
  process.exit(64);
}
let wrong = 0;
for (let done = 0, round = 0; done < tables; done += 1000, round += 1) {
  const so = mutatedTables({ seed: seed * 1000 + round, tables: Math.min(1000, tables - done) });
  wrong += so.wrong.length;
  console.log(`${done + 1000}: read ${so.read}, refused ${so.refused}, faults ${so.faults}, edits ${so.edits}, wrong ${so.wrong.length}`);
  for (const one of so.wrong.slice(0, 5)) console.log(`  ${one}`);
}
process.exitCode = wrong === 0 ? 0 : 1;
