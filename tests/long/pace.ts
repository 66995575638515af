import { spawnSync } from 'node:child_process';
import { heldAtlas } from '../bench/counter/held-atlas.ts';
import { openDemoDesk } from '../bench/demo-desk.ts';

/**
 * Units of the demo world entered by keyboard at a practised hand’s pace, and how long each verdict took to be painted after its Enter.
 * `npm run long -- pace [units] [times]`: as many as can be open at once, 12, unless told fewer; some hundred entries. With `times`, over an atlas so many times as large, made of copies.
 * It needs what `npm run build` made, and a machine that does nothing else.
 */
const [units = '12', times = '1'] = process.argv.slice(2);

/** A data folder with an atlas so many times as large, which the stories begin with. */
const larger = async (): Promise<NodeJS.ProcessEnv> => {
  if (Number(times) === 1) return {};
  const demo = await openDemoDesk();
  try {
    return { KINPLATE_FILLED: await heldAtlas(demo.atlas, Number(times)) };
  } finally {
    await demo.close();
  }
};

const { status } = spawnSync(
  process.execPath,
  ['node_modules/@playwright/test/cli.js', 'test', 'pace.story', '--retries=0', '--workers=1', '--reporter=line'],
  { stdio: 'inherit', env: { ...process.env, ...(await larger()), KINPLATE_PACE: units, KINPLATE_TIMES: 'yes' } },
);
process.exit(status ?? 1);
