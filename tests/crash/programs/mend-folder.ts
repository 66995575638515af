import { mendFolder } from '../../../electron/desk/mend.ts';

/** mend-folder.mjs FOLDER SHIPPED: mends the atlas of a data folder, saying each step once it is done, and last how it ended. */
const [folder = '', shipped = ''] = process.argv.slice(2);
const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};
say('started');
const mended = await mendFolder(folder, shipped, new Date('2026-03-04T12:00:00.000Z'), say);
say(mended.ok ? `ended ${mended.value.state}` : `trouble ${mended.trouble.sentence}`);
