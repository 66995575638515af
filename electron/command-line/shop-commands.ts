import { parseJson } from '../../db/index.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { refusal } from '../bridge/reply.ts';
import { settingSchema } from '../bridge/settings-calls.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { fileText, jsonFault } from './given-text.ts';
import { dataOption, formatOption, whoOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate shop`: what the shop says of itself. */
export const shopCommand = command({
  name: 'shop',
  options: { ...formatOption, ...dataOption },
  inPlaceOfWords: 'shop set takes in what a file says',
  help: ['What the shop says of itself: letterhead, money, measures, who works there, the letter of this counter.'],
  run: ({ options: { format, data } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async ({ settings }) => {
      const all = await settings.all();
      if (!all.ok) return sayTrouble(terminal, all.trouble);
      const { letterhead, money, measures, people, counter } = all.value;
      const hour = money.value?.hour ?? null;
      terminal.out(
        format === 'json'
          ? jsonText(all.value)
          : `${[
              `letterhead\t${[letterhead.value.name, ...letterhead.value.lines].filter(Boolean).join(', ') || 'none'}${letterhead.value.logo === null ? '' : ', with a picture'}`,
              `money\t${money.value === null ? 'not said' : `${money.value.code}, written ${moneyText(1234.5, money.value.code, money.value)}`}`,
              `an hour\t${money.value === null || hour === null ? 'not said' : moneyText(hour, money.value.code, money.value)}`,
              `measures\t${measures.value.unit}, decimals with a ${measures.value.comma ? 'comma' : 'point'}`,
              `this counter\t${counter.value.letter}`,
              `who works here\t${people.value.names.join(', ') || 'nobody said'}`,
            ].join('\n')}\n`,
      );
      return exitCodes.stands;
    }),
});

/** `kinplate shop set`: one setting out of a file, `{ "key": "money", "value": { … } }`. */
export const shopSetCommand = command({
  name: 'shop set',
  words: { shown: '<file.json>', least: 1, most: 1, otherwise: 'Name the file that says the setting: { "key": "money", "value": { … } }.' },
  options: { ...whoOption, ...dataOption },
  help: ['Takes in one setting of the shop, as shop --format json writes its value: { "key": …, "value": … }.'],
  run: async ({ words: [file = ''], options: { who = '', data } }, terminal) => {
    const text = await fileText(file);
    if (!text.ok) return sayTrouble(terminal, text.trouble);
    const read = parseJson(text.value, settingSchema);
    if (!read.ok) return sayTrouble(terminal, refusal('malformed', file, `${jsonFault(file, read).sentence} Nothing was changed.`).trouble);
    return withStore({ pack: [], data }, 'write', terminal, async ({ settings }) => {
      const { key, value } = read.value;
      const saved = await (key === 'letterhead' ? settings.save(key, { ...value, logo: null }, who) : settings.save(key, value, who));
      return saved.ok ? exitCodes.stands : sayTrouble(terminal, saved.trouble);
    });
  },
});
