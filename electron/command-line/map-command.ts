import { headIn, mappingText } from '../../db/index.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { dataOption } from './option.ts';
import { sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate pack map`: what is proposed of a pack's words, to be corrected and given to pack load. */
export const packMapCommand = command({
  name: 'pack map',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack map takes the folder of one pack.' },
  options: dataOption,
  help: ['its words the atlas may have under other ids, as JSON: to be corrected,', 'and given to pack load with --map'],
  run: ({ words: [folder = ''], options: { data } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const words = await store.packs.words(folder);
      if (!words.ok) return sayTrouble(terminal, words.trouble);
      terminal.out(mappingText((await headIn(folder))?.id ?? folder, words.value));
      return exitCodes.stands;
    }),
});
