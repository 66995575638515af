import { type Beginning, beginnings } from '../bridge/pack-calls.ts';
import { defaultDataFolder } from '../desk/data-folder.ts';
import { makePrivately } from '../desk/keep-private.ts';
import { openHouse } from '../desk/open-house.ts';
import { beginAtlas } from '../desk/shipped-packs.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { dataOption } from './option.ts';
import { sayTrouble, sayUsage } from './terminal.ts';

const otherwise = 'Say what it begins with in one word: empty, for the words of the trade alone, or invented, for the invented atlas too.';

/** `kinplate begin`: what the window asks where an atlas holds no packs, for scripts. */
export const beginCommand = command({
  name: 'begin',
  words: { shown: beginnings.join('|'), least: 1, most: 1, otherwise },
  options: dataOption,
  help: ['an atlas that holds no packs begun: empty, with the words of the trade, or with the invented atlas to look round in'],
  run: async ({ words: [word = ''], options: { data } }, terminal, { shipped }) => {
    if (!isBeginning(word)) return sayUsage(terminal, otherwise);
    makePrivately();
    const folder = data ?? defaultDataFolder();
    const house = await openHouse(folder, shipped, (line) => terminal.err(`· ${line}`));
    if (!house.ok) return sayTrouble(terminal, house.trouble);
    try {
      const begun = await beginAtlas(house.value.store, shipped, word, (line) => terminal.err(`· ${line}`));
      if (!begun.ok) return sayTrouble(terminal, begun.trouble);
      terminal.out(`The atlas in ${folder} begins with: ${begun.value.join(', ')}.\n`);
      return exitCodes.stands;
    } finally {
      await house.value.close();
    }
  },
});

const isBeginning = (word: string): word is Beginning => (beginnings as readonly string[]).includes(word);
