import { openStore } from '../../../db/index.ts';
import { expandCode } from '../../unit/db/packs.ts';

/**
 * load-pack.mjs FILE PACK [STEP]: loads a pack, saying each step as it begins. At STEP it stands still, to be killed there.
 */
const [file = '', pack = '', stop = null] = process.argv.slice(2);

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const opened = await openStore(file, { expandCode });
if (!opened.ok) throw new Error(opened.trouble.sentence);
say('opened');
const loaded = await opened.value.packs.load(pack, {
  onProgress: (step) => {
    say(step);
    // Standing still in here holds the transaction open, whatever else is under way.
    if (step === stop) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 60_000);
  },
});
say(loaded.ok ? 'committed' : `trouble ${loaded.trouble.code}`);
await opened.value.close();
