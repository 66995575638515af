import { pricesCsv } from '../../db/index.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { fileText } from './given-text.ts';
import { dataOption, formatOption, whoOption } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate prices`: the shop's own price list. */
export const pricesCommand = command({
  name: 'prices',
  options: { csv: { kind: 'flag' }, ...formatOption, ...dataOption },
  inPlaceOfWords: 'prices read takes in a table of them',
  help: ['What the shop asks for parts, by its own list, one a line, or as a table.'],
  run: ({ options: { csv, format, data } }, terminal) => {
    if (csv && format === 'json') return sayUsage(terminal, 'prices are written as CSV or as JSON, not both.');
    return withStore({ pack: [], data }, 'read', terminal, async ({ prices, settings }) => {
      const listed = await prices.list();
      if (!listed.ok) return sayTrouble(terminal, listed.trouble);
      const all = await settings.all();
      const money = all.ok ? all.value.money.value : null;
      terminal.out(
        csv
          ? pricesCsv(listed.value)
          : format === 'json'
            ? jsonText(listed.value)
            : listed.value
                .map(
                  (one) =>
                    `${[one.part, moneyText(one.amount, one.money, money), one.name ?? 'no longer in the atlas', one.note].join('\t')}\n`,
                )
                .join(''),
      );
      return exitCodes.stands;
    });
  },
});

/** `kinplate prices read`. */
export const pricesReadCommand = command({
  name: 'prices read',
  words: { shown: '<file.csv>', least: 1, most: 1, otherwise: 'Name the table to read.' },
  options: { ...whoOption, ...dataOption },
  help: ['Takes in a table of prices (part, price, money, note), whole or not at all; an empty price takes a part off the list.'],
  run: async ({ words: [file = ''], options: { who = '', data } }, terminal) => {
    const text = await fileText(file);
    if (!text.ok) return sayTrouble(terminal, text.trouble);
    return withStore({ pack: [], data }, 'write', terminal, async ({ prices }) => {
      const taken = await prices.takeInTable(text.value, file, who);
      if (!taken.ok) return sayTrouble(terminal, taken.trouble);
      const { fresh, changed, off, same } = taken.value;
      const altered = fresh + changed + off;
      terminal.out(`${altered} of ${altered + same} prices were changed.\n`);
      return exitCodes.stands;
    });
  },
});
