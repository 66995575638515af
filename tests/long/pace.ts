import { spawnSync } from 'node:child_process';

/**
 * Units of the demo world entered by keyboard at a practised hand’s pace, and how long each verdict took to be painted after its Enter.
 * `npm run long -- pace [units]`: as many as can be open at once, 12, unless told fewer; some hundred entries. It needs what `npm run build` made, and a machine that does nothing else.
 */
const [units = '12'] = process.argv.slice(2);
const { status } = spawnSync(
  process.execPath,
  ['node_modules/@playwright/test/cli.js', 'test', 'pace.story', '--retries=0', '--workers=1', '--reporter=line'],
  { stdio: 'inherit', env: { ...process.env, KINPLATE_PACE: units, KINPLATE_TIMES: 'yes' } },
);
process.exitCode = status ?? 1;
