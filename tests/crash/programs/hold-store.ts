import { openStore } from '../../../db/index.ts';
import { endWithStarter } from '../../../electron/hosts/end-with-starter.ts';

// Holds a store open as a host does, until whoever started it is gone; says so, and who it is.
const [file = ''] = process.argv.slice(2);
const opened = await openStore(file);
if (!opened.ok) throw new Error(opened.trouble.sentence);
const going = setInterval(() => {}, 1000);
let stopping = false;
const stop = (why: string) => async () => {
  if (stopping) return;
  stopping = true;
  clearInterval(going);
  await opened.value.close();
  console.log(`closed: ${why}`);
  process.exit(0);
};
process.on('SIGTERM', stop('asked'));
endWithStarter(stop('alone'));
console.log(`open ${process.pid}`);
