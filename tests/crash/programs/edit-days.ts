import { act, doneIn, openFor } from '../edit-acts.ts';

/** edit-days.mjs FILE SEED UNTIL OLDER NEWER: goes on with the atlas where it stands, one thing after the other, saying each when it is done. */
const [file = '', seed = '', until = '', older = '', newer = ''] = process.argv.slice(2);

const store = await openFor(file);
process.stdout.write('opened\n');
for (let n = await doneIn(store); n < Number(until); n += 1) {
  await act(store, n, Number(seed), [older, newer]);
  process.stdout.write(`done ${n}\n`);
}
await store.close();
process.stdout.write('ended\n');
