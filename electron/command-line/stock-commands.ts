import { type KeptStockLine, type Outcome, type StockLine, type Store, stockCsv } from '../../db/index.ts';
import { asId, type PartId } from '../../reasoner/index.ts';
import { moneyText, readAmount } from '../../reasoner/plain/money.ts';
import { type StockCondition, stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { refusal, well } from '../bridge/reply.ts';
import { stockLineSchema } from '../bridge/stock-calls.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { fileText } from './given-text.ts';
import { dataOption, formatOption, type ValuesOf, whoOption } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate stock`: what lies on the shelves, a line each, as JSON, or as the table that is read in again. */
export const stockCommand = command({
  name: 'stock',
  options: { text: { kind: 'text', value: '<words>' }, csv: { kind: 'flag' }, ...formatOption, ...dataOption },
  inPlaceOfWords: 'stock add puts a line on the list, stock take takes of one',
  help: ['What lies on the shelves, a line each, or as a table (stock read takes one in).'],
  run: ({ options: { text = '', csv, format, data } }, terminal) => {
    if (csv && format === 'json') return sayUsage(terminal, 'stock is written as CSV or as JSON, not both.');
    return withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const listed = await store.stock.list();
      if (!listed.ok) return sayTrouble(terminal, listed.trouble);
      const lines = listed.value.filter((line) => says(line, text));
      const settings = await store.settings.all();
      const money = settings.ok ? settings.value.money.value : null;
      terminal.out(csv ? stockCsv(lines) : format === 'json' ? jsonText(lines) : lines.map((line) => `${textOf(line, money)}\n`).join(''));
      return lines.length > 0 || text === '' ? exitCodes.stands : exitCodes.open;
    });
  },
});

/** Every word somewhere in what the line says. */
const says = (line: KeptStockLine, text: string): boolean => {
  const said = [line.name, ...line.numbers, line.place, line.condition, line.note].join(' ').toLowerCase();
  return text
    .toLowerCase()
    .split(/\s+/)
    .every((word) => said.includes(word));
};

const textOf = (line: KeptStockLine, money: Parameters<typeof moneyText>[2]): string =>
  [
    line.id,
    String(line.many),
    line.name,
    line.numbers.join(', '),
    line.condition,
    line.price === null ? 'price not known' : moneyText(line.price.amount, line.price.money, money),
    line.place,
    line.note,
  ].join('\t');

const addOptions = {
  part: { kind: 'text', value: '<part>' },
  what: { kind: 'text', value: '<words>' },
  number: { kind: 'text', value: '<number>' },
  many: { kind: 'text', value: '<n>' },
  condition: { kind: 'text', value: '<condition>' },
  price: { kind: 'text', value: '<amount>' },
  where: { kind: 'text', value: '<place>' },
  note: { kind: 'text', value: '<words>' },
  ...whoOption,
  ...formatOption,
  ...dataOption,
} as const;

/** `kinplate stock add`. */
export const stockAddCommand = command({
  name: 'stock add',
  options: addOptions,
  inPlaceOfWords: 'name the part with --part, or tell it with --what',
  help: [`Puts a line on the stock list. Conditions: ${stockConditions.join(' · ')}.`],
  run: ({ options }, terminal) => {
    if ((options.part === undefined) === (options.what === undefined))
      return sayUsage(terminal, 'Name a part of the atlas with --part, or tell it with --what.');
    return withStore({ pack: [], data: options.data }, 'write', terminal, async (store) => {
      const line = await lineIn(store, options);
      if (!line.ok) return sayTrouble(terminal, line.trouble);
      const saved = await store.stock.save(null, line.value, { who: options.who ?? '' });
      if (!saved.ok) return sayTrouble(terminal, saved.trouble);
      terminal.out(options.format === 'json' ? jsonText(saved.value) : `${saved.value.id}\n`);
      return exitCodes.stands;
    });
  },
});

const lineIn = async (store: Store, options: ValuesOf<typeof addOptions>): Promise<Outcome<StockLine>> => {
  const { part, what = '', number = '', many = '1', condition = 'not looked at yet', price, where = '', note = '' } = options;
  if (!/^\d{1,6}$/.test(many)) return refusal('usage', '--many', `--many takes a whole number, not “${many}”.`);
  if (!(stockConditions as readonly string[]).includes(condition))
    return refusal('usage', '--condition', `--condition is one of: ${stockConditions.join(' · ')}; not “${condition}”.`);
  const amount = price === undefined ? null : readAmount(price);
  if (price !== undefined && amount === null)
    return refusal('usage', '--price', `--price takes an amount above 0, not “${price}”. Leave it out where it is not known.`);
  const settings = await store.settings.all();
  if (!settings.ok) return settings;
  const money = settings.value.money.value?.code;
  if (amount !== null && money === undefined)
    return refusal(
      'money-unsaid',
      '--price',
      'The shop has not said in what money it asks, so a price says nothing. Say it first: kinplate shop set, or The shop in the window.',
    );
  const line = stockLineSchema.safeParse({
    part: part ?? null,
    words: what,
    number: part === undefined ? number : '',
    many: Number(many),
    condition: condition as StockCondition,
    price: amount === null ? null : { amount, money },
    place: where,
    note,
  });
  if (line.success) return well({ ...line.data, part: part === undefined ? null : asId<PartId>(part) });
  const [issue] = line.error.issues;
  return refusal(
    'malformed',
    issue?.path.join('.') ?? null,
    `The line cannot be put on the list: ${issue?.path.join('.')} is to be ${issue?.message}.`,
  );
};

/** `kinplate stock take`. */
export const stockTakeCommand = command({
  name: 'stock take',
  words: { shown: '<line or part>', least: 1, most: 1, otherwise: 'Name one line of the stock list, by its id or by the id of its part.' },
  options: { many: { kind: 'text', value: '<n>' }, ...whoOption, ...formatOption, ...dataOption },
  help: ['Takes so many, one unless said, of a line of the stock list.'],
  run: ({ words: [named = ''], options: { many = '1', who = '', format, data } }, terminal) => {
    if (!/^[1-9]\d{0,5}$/.test(many)) return sayUsage(terminal, `--many takes a whole number above 0, not “${many}”.`);
    return withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const listed = await store.stock.list();
      if (!listed.ok) return sayTrouble(terminal, listed.trouble);
      const lines = listed.value.filter(({ id, part }) => id === named || part === named);
      const [line, ...others] = lines;
      if (line === undefined || others.length > 0) {
        const sentence =
          line === undefined
            ? `The stock list has no line “${named}”, and none of a part of that id.`
            : `${lines.length} lines are of “${named}”: ${lines.map(({ id, condition, place }) => `${id} (${[condition, place].filter(Boolean).join(', ')})`).join('; ')}. Name one.`;
        return sayTrouble(terminal, refusal('not-found', named, sentence).trouble);
      }
      const taken = await store.stock.take(line.id, Number(many), who);
      if (!taken.ok) return sayTrouble(terminal, taken.trouble);
      terminal.out(format === 'json' ? jsonText(taken.value) : `${taken.value.many} left of ${taken.value.name}.\n`);
      return exitCodes.stands;
    });
  },
});

/** `kinplate stock read`. */
export const stockReadCommand = command({
  name: 'stock read',
  words: { shown: '<file.csv>', least: 1, most: 1, otherwise: 'Name the table to read.' },
  options: { look: { kind: 'flag' }, ...whoOption, ...formatOption, ...dataOption },
  help: ['Takes in a table of stock, whole or not at all; with --look only says what it would do.'],
  run: async ({ words: [file = ''], options: { look, who = '', format, data } }, terminal) => {
    const text = await fileText(file);
    if (!text.ok) return sayTrouble(terminal, text.trouble);
    return withStore({ pack: [], data }, look ? 'read' : 'write', terminal, async ({ stock }) => {
      const table = await (look ? stock.lookAtTable(text.value, file) : stock.takeInTable(text.value, file, who));
      if (!table.ok) return sayTrouble(terminal, table.trouble);
      const { fresh, changed, same } = table.value;
      terminal.out(
        format === 'json'
          ? jsonText(table.value)
          : `${fresh} new, ${changed} changed, ${same} as they are${look ? '; nothing was changed' : ''}.\n`,
      );
      return exitCodes.stands;
    });
  },
});
