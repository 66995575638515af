import type { NumberSoFar, PartSoFar, ReadSoFar } from '../../reasoner/index.ts';
import { months } from '../../reasoner/plain/months.ts';
import { sayEra } from '../../reasoner/plain/say-era.ts';
import type { Words } from '../bridge/words.ts';

/** `July 2003`, `1974 to 1992`, `since 1992`; null where nothing is known. */
export const sayWhen = (made: ReadSoFar['made'], month: number | null): string | null => {
  const inMonth = month === null ? null : (months[month - 1] ?? null);
  if (made === null) return inMonth;
  const years = sayEra(made);
  return inMonth !== null && made.from !== null && made.from === made.to ? `${inMonth} ${years}` : years;
};

/** What a number means so far, in a sentence or two, for who hears the page: the likeliest reading, what is wrong or still to come, the part it is of. */
export const sayMeaning = (meaning: NumberSoFar, says: string, words: Pick<Words, 'makerName' | 'slotName'>): string => {
  const { state, readings, parts } = meaning;
  const [reading] = readings;
  const [part] = parts;
  if (reading === undefined) return part === undefined ? `No maker of the atlas begins a ${says} so.` : ofPart(part);
  const begins = `${words.makerName(reading.maker)}, ${reading.pattern}`;
  const pieces = reading.pieces.flatMap(({ means }) => means ?? []).join(', ');
  const wrong = reading.pieces.find((piece) => piece.state === 'wrong');
  const left = reading.pieces.filter((piece) => piece.state === 'begun' || piece.state === 'to come');
  return [
    `${begins}${pieces === '' ? '' : `: ${pieces}`}.`,
    wrong === undefined ? '' : `From sign ${wrong.from + 1} on, “${wrong.text}” cannot be so: ${wrong.name}, wanted ${wrong.wanted}.`,
    state === 'begun'
      ? `Still to come: ${left.map(({ name, wanted }) => [name, wanted].filter((one) => one !== null).join(', ')).join('; ')}.`
      : '',
    part !== undefined ? ofPart(part) : state === 'whole' && says === 'part number' ? 'Not listed.' : '',
  ]
    .filter((one) => one !== '')
    .join(' ');
};

const ofPart = ({ name, supersededBy }: PartSoFar): string =>
  `${name}${supersededBy === null ? '' : `, superseded by ${supersededBy.number ?? supersededBy.name}`}.`;
