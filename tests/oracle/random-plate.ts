import type {
  Fact,
  Feature,
  Id,
  Maker,
  Model,
  NumberPattern,
  NumberPiece,
  Observation,
  Part,
  PartId,
  Seen,
  Slot,
  SlotId,
} from '../../reasoner/index.ts';
import { Dice } from './dice.ts';
import type { Case } from './random-atlas.ts';

const id = <T extends Id<string>>(text: string): T => text as T;

/**
 * A case whose plate is stamped: makers with number patterns or without, plates with numbers, trade names and years, models with times, and
 * on the sheet a number that is listed, that could be, or that nobody makes so, with what else may be on a plate. Thrown with dice of its own, so that
 * all else of a seed is what it was.
 */
export const withPlate = (unit: Case): Case => {
  const dice = new Dice(unit.seed + 700_000);
  const { atlas, sheet } = unit;
  const slot = atlas.slots.find(({ group }) => group === 'plate');
  if (slot === undefined || dice.often(15)) return unit;
  const other = atlas.slots.find((each) => each.id !== slot.id)?.id as SlotId;
  const makers = atlas.makers.map((maker): Maker => {
    const numbering = [...some(dice, 85, () => partPatterns(dice, slot.id, other)), ...some(dice, 50, () => [serialPattern(dice)])].flat();
    return { ...maker, tradeNames: tradeNamesOf(dice, maker), ...(numbering.length > 0 ? { numbering } : {}) };
  });
  const features = plateFeatures(dice, slot);
  const parts = atlas.parts.map((part): Part => (part.slot === slot.id ? stampedPart(dice, part, makers) : part));
  const time = (): Pick<Model, 'from' | 'to'> => {
    const from = dice.often(40) ? null : dice.whole(1950, 1985);
    const to = dice.whole(from ?? 1955, 1999);
    return { from, to: dice.often(40) ? null : to };
  };
  const models = atlas.models.map((model): Model => (dice.often(60) ? { ...model, ...time() } : model));
  const families = atlas.families.map((family) => (dice.often(40) ? { ...family, ...time() } : family));
  const stamped = sheet.absent.includes(slot.id) ? [] : stampedOn(dice, slot, makers, parts);
  return {
    ...unit,
    atlas: { ...atlas, makers, features: [...atlas.features, ...features], parts, models, families },
    sheet: { ...sheet, observations: [...sheet.observations, ...stamped] },
  };
};

const some = <T>(dice: Dice, percent: number, make: () => T): T[] => (dice.often(percent) ? [make()] : []);

const stamps = ['number', 'trade-name', 'serial', 'year'] as const;
const saying = { number: 'part number', 'trade-name': 'trade name', serial: 'serial number', year: 'year of make' } as const;

const plateFeatures = (dice: Dice, { id: slot, stage }: Slot): Feature[] =>
  stamps.map((what) => ({
    id: id(`${slot}-${what}`),
    slot,
    name: what,
    kind: what === 'year' ? 'count' : 'mark',
    stage,
    minutes: dice.whole(0, 3),
    says: saying[what],
  }));

const tradeNamesOf = (dice: Dice, { name }: Maker): Maker['tradeNames'] => [
  { name, from: dice.whole(1950, 1980), to: null },
  ...some(dice, 50, () => ({ name: `Old ${name}`, from: 1950, to: dice.whole(1960, 1980) })),
];

const before = (dice: Dice): string => dice.one(['', ' ', '-', '/']);

/** A letter, for some makers the same; perhaps the slot’s code; two figures; perhaps a check digit; perhaps an issue. */
const partPatterns = (dice: Dice, plate: SlotId, other: SlotId): NumberPattern[] =>
  Array.from({ length: dice.often(20) ? 2 : 1 }, (_, i) => {
    const digits = (name: string, count: number): NumberPiece => ({ before: before(dice), kind: 'digits', name, count });
    return {
      id: `part-${i}`,
      name: 'part number',
      says: 'part number',
      from: dice.often(70) ? null : dice.whole(1950, 1980),
      to: dice.often(75) ? null : dice.whole(1980, 1995),
      pieces: [
        { before: '', kind: 'fixed', text: dice.one(['M', 'N']) },
        ...some(dice, 50, (): NumberPiece => ({ before: before(dice), kind: 'slot', codes: { P: plate, W: other } })),
        digits('running number', 2),
        ...some(
          dice,
          50,
          (): NumberPiece => ({
            before: before(dice),
            kind: 'check digit',
            weights: [1, 3],
            ...dice.one([
              { modulus: 10, stamps: 'complement', ten: 'X' },
              { modulus: 11, stamps: 'remainder', ten: 'X' },
            ] as const),
          }),
        ),
        ...some(dice, 50, (): NumberPiece => ({ ...(digits('issue', 1) as NumberPiece & { kind: 'digits' }), issue: true })),
      ],
    };
  });

const serialPattern = (dice: Dice): NumberPattern => ({
  id: 'serial',
  name: 'serial number',
  says: 'serial number',
  from: 1955,
  to: null,
  pieces: [
    { before: '', kind: 'fixed', text: dice.one(['S', 'R']) },
    { before: before(dice), kind: 'year', figures: dice.one([2, 4] as const) },
    { before: before(dice), kind: 'digits', name: 'running number', count: 1 },
  ],
});

/** A number of a pattern, with or without fault. */
const written = (dice: Dice, { pieces }: NumberPattern, wrongly = false): string => {
  let text = '';
  for (const piece of pieces) {
    const figure = (count: number) => Array.from({ length: count }, () => dice.whole(0, 3)).join('');
    text += piece.before;
    switch (piece.kind) {
      case 'fixed':
        text += piece.text;
        break;
      case 'slot':
        text += dice.often(93) ? 'P' : 'W';
        break;
      case 'year':
        text += String(dice.whole(1955, 1999)).slice(4 - piece.figures);
        break;
      case 'digits':
        text += figure(piece.count);
        break;
      case 'check digit': {
        const sum = [...text.replace(/\D/g, '')].reduce((all, each, i) => all + Number(each) * (i % 2 === 0 ? 1 : 3), 0);
        const right = piece.stamps === 'remainder' ? sum % piece.modulus : (piece.modulus - (sum % piece.modulus)) % piece.modulus;
        const stamped = wrongly ? (right + 1) % 10 : right;
        text += stamped === 10 ? 'X' : String(stamped);
        break;
      }
      default:
        throw new Error(`no such piece is made up: ${piece.kind}`);
    }
  }
  return text;
};

const patternsOf = (maker: Maker | undefined, says: NumberPattern['says']): readonly NumberPattern[] =>
  (maker?.numbering ?? []).filter((pattern) => pattern.says === says);

const stampedPart = (dice: Dice, part: Part, makers: readonly Maker[]): Part => {
  const maker = makers.find((each) => each.id === part.maker);
  const [pattern] = patternsOf(maker, 'part number');
  const number = pattern === undefined ? `${part.id}` : written(dice, pattern);
  const facts: [string, Fact][] = [
    ...some(dice, 85, (): [string, Fact] => [`${part.slot}-number`, { kind: 'mark', anyOf: [number], blank: false }]),
    ...some(dice, 50, (): [string, Fact] => [
      `${part.slot}-trade-name`,
      { kind: 'mark', anyOf: maker?.tradeNames.map(({ name }) => name) ?? [], blank: maker === undefined || dice.often(20) },
    ]),
    ...some(dice, 30, (): [string, Fact] => [`${part.slot}-year`, { kind: 'count', from: 1950, to: dice.whole(1960, 1999) }]),
  ];
  return { ...part, numbers: dice.often(80) ? [number] : part.numbers, facts: { ...part.facts, ...Object.fromEntries(facts) } };
};

const stampedOn = (dice: Dice, slot: Slot, makers: readonly Maker[], parts: readonly Part[]): Observation[] => {
  const maker = dice.one(makers);
  const saw = (what: (typeof stamps)[number], value: Seen): Observation => ({
    id: id(`stamped-${what}`),
    slot: slot.id,
    feature: id(`${slot.id}-${what}`),
    value,
    sure: dice.often(8) ? { kind: 'told' } : { kind: 'seen' },
  });
  const mark = (text: string | null): Seen => ({ kind: 'mark', text });
  const number = () => {
    const [pattern] = patternsOf(maker, 'part number');
    const listed = parts.filter((part) => part.slot === slot.id).map((part): PartId => part.id);
    const of = parts.find((part) => part.id === dice.one(listed))?.facts[id<Feature['id']>(`${slot.id}-number`)];
    switch (dice.whole(0, 9)) {
      case 0:
        return of?.kind === 'mark' ? (of.anyOf[0] ?? 'ZZ') : 'ZZ';
      case 2: {
        // The last figure of a listed number put up: another issue, where it is one.
        const text = of?.kind === 'mark' ? (of.anyOf[0] ?? 'ZZ') : 'ZZ';
        return text.replace(/\d$/, (last) => String((Number(last) + 1) % 10));
      }
      case 3:
        return pattern === undefined ? 'ZZ' : written(dice, pattern, true);
      case 4:
        return dice.one(['ZZ', 'Q 1', 'M', 'N 123456']);
      default:
        return pattern === undefined ? 'ZZ' : written(dice, pattern);
    }
  };
  const serial = () => {
    const [pattern] = patternsOf(dice.often(85) ? maker : dice.one(makers), 'serial number');
    return pattern === undefined || dice.often(10) ? 'no serial' : written(dice, pattern);
  };
  const name = () => dice.one((dice.often(85) ? maker : dice.one(makers)).tradeNames).name;
  return [
    ...some(dice, 92, () => saw('number', mark(dice.often(95) ? number().toLowerCase() : null))),
    ...some(dice, 35, () => saw('trade-name', mark(dice.one([name(), name(), name(), 'Nobody', null])))),
    ...some(dice, 25, () => saw('serial', mark(serial()))),
    ...some(dice, 25, () => {
      const from = dice.whole(1950, 1999);
      return saw('year', { kind: 'count', from, to: from + (dice.often(20) ? 1 : 0) });
    }),
  ];
};
