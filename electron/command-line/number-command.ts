import type { KeptStockLine, NumberedPart } from '../../db/index.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { inStockPhrase } from '../../reasoner/plain/stock-condition.ts';
import type { NumberFound } from '../bridge/number-calls.ts';
import { numberFound } from '../desk/number.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate number`: what a part number is, where it goes, and what of it lies on the shelves. */
export const numberCommand = command({
  name: 'number',
  words: { shown: '<part number>', least: 1, most: 20, otherwise: 'Name a part number, as it is stamped or written.' },
  options: { ...formatOption, ...atlasOptions },
  help: ['A part number: whose it is, where it is used, what took its place, what else fits there, what is in stock.'],
  run: ({ words, options }, terminal) =>
    withStore(options, 'read', terminal, async (store) => {
      const text = words.join(' ');
      const found = await numberFound(store, text);
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      terminal.out(options.format === 'json' ? jsonText(found.value) : numberText(text, found.value));
      return found.value.parts.length > 0 || found.value.stock.some(({ part }) => part === null) ? exitCodes.stands : exitCodes.open;
    }),
});

const numberText = (text: string, { parts, near, stock }: NumberFound): string => {
  const lines = parts.flatMap((one) => partLines(one, stock));
  const inWords = stock.filter(({ part }) => part === null).map((line) => `On the shelf, told in words: ${stockText(line)}`);
  if (parts.length > 0) return `${[...lines, ...inWords].join('\n')}\n`;
  const said = [
    `No part of the atlas has the number ${text}.`,
    ...near.map(({ number, part, slip }) => `${slip === null ? 'Begins so' : `Near, if ${slip}`}: ${number}, ${part.name}`),
  ];
  return `${[...said, ...inWords].join('\n')}\n`;
};

const partLines = (one: NumberedPart, stock: readonly KeptStockLine[]): string[] => {
  const lying = (id: string): string => {
    const said = inStockPhrase(stock.filter(({ part }) => part === id));
    return said === null ? '' : ` [${said}]`;
  };
  return [
    `${one.number}: ${one.part.name}, ${one.maker ?? 'no maker’s name'}, ${one.slot}`,
    ...(one.numbers.length > 1 ? [`  numbers: ${one.numbers.join(', ')}`] : []),
    ...one.sitsIn.map(({ model, role }) => `  used in ${model.name} (${role})`),
    ...(one.sitsIn.length === 0 ? ['  no model of the atlas lists it'] : []),
    ...one.tookThePlaceOf.map(({ name, id }) => `  took the place of ${name}${lying(id)}`),
    ...one.replacedBy.map(({ name, id }) => `  replaced by ${name}${lying(id)}`),
    ...one.others.map(
      ({ part, in: models }) => `  also there: ${part.name}${lying(part.id)} (${models.map(({ model }) => model.name).join(', ')})`,
    ),
    ...(one.alike ?? []).map(({ name, id }) => `  the same at every joint: ${name}${lying(id)}`),
    ...(one.alike === null ? ['  what else has its dimensions at every joint is not known'] : []),
    ...stock.filter(({ part }) => part === one.part.id).map((line) => `  in stock: ${stockText(line)}`),
  ];
};

const stockText = ({ part, many, name, condition, price, place }: KeptStockLine): string =>
  [
    `${many}`,
    ...(part === null ? [name] : []),
    condition,
    price === null ? 'price not known' : moneyText(price.amount, price.money, null),
    ...(place === '' ? [] : [place]),
  ].join(', ');
