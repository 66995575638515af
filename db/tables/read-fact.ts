import type { Fact, Feature, Seen } from '../../reasoner/index.ts';
import { tight } from '../plain/fold.ts';
import type { ExpandCode, SlipOf } from '../read/asked.ts';
import { shown } from '../read/faults.ts';
import { isPlain, plainText } from '../read/plain-text.ts';
import type { Unplaced } from './cell-fault.ts';
import type { FigurePart, WrittenUnit } from './column-use.ts';
import { type DecimalSign, limitsOf, plainSize, readSize, readWhole, type SizeRead, sizeOf } from './read-figure.ts';

/** What a cell is read with. */
export interface ReadWith {
  readonly expandCode?: ExpandCode | undefined;
  readonly slipOf?: SlipOf | undefined;
  /** Of the whole table. */
  readonly decimal: DecimalSign;
}

/** A cell of a feature: its text, and how its column is written. */
export interface FigureCell {
  readonly column: number;
  readonly text: string;
  readonly part: FigurePart;
  readonly unit: WrittenUnit | null;
  readonly within: number | null;
  /** Held as a number by the spreadsheet: its sign is a decimal point whatever the table’s texts write. */
  readonly number: boolean;
}

export type FactRead =
  /** `beyond`: it was confirmed, and reaches from here to there, past what its feature holds plausible. */
  | { readonly ok: true; readonly fact: Fact; readonly beyond?: { readonly from: number; readonly to: number } }
  | { readonly ok: false; readonly column: number; readonly fault: Unplaced };

const notKnown = new Set(['?', 'unknown', 'notknown', 'na', 'unbekannt']);
/** `?`, `unknown`, `not known`, `n/a`: it was asked and nobody knows, which is neither nought nor nothing said (A5). */
export const saysNotKnown = (text: string): boolean => notKnown.has(/^\?+$/.test(text) ? '?' : tight(text));

const yes = new Set(['yes', 'y', 'true', 'x', 'there', 'with', 'present', 'fitted', '✓', '✔', '1']);
const no = new Set(['no', 'n', 'false', 'notthere', 'without', 'absent', 'none', '✗', '✘', '0']);
const noLetters = new Set(['blank', 'noletters', 'none', 'unmarked', 'nomark']);

/**
 * What the cells of one row say of a feature; at least one of them is not empty. Sizes come out in mm or degrees. A size that stands alone has its limits where its
 * column says how far off it may be, else none beyond itself.
 * @param confirmed the columns whose figures somebody has confirmed as read
 */
export const readFact = (
  feature: Feature,
  cells: readonly FigureCell[],
  reading: ReadWith,
  confirmed: ReadonlySet<number> = new Set(),
): FactRead => {
  const first = cells[0] as FigureCell;
  const fault = (column: number, found: string, expected: string, rest: Partial<Unplaced> = {}): FactRead => ({
    ok: false,
    column,
    fault: { found: found === '' ? 'nothing' : shown(found), expected, ...rest },
  });
  const unknown = cells.find(({ text }) => saysNotKnown(text));
  if (unknown !== undefined) {
    const beside = cells.find((cell) => cell !== unknown && cell.text !== '' && !saysNotKnown(cell.text));
    return beside === undefined
      ? { ok: true, fact: { kind: 'not known' } }
      : fault(beside.column, beside.text, 'nothing beside what is not known');
  }
  if (feature.kind === 'measure') {
    const read = measureIn(feature, cells, reading, fault);
    return 'ok' in read ? read : doubted(feature, read.fact, read.column, cells, reading, confirmed, fault);
  }
  const extra = cells.find(({ part, text }) => part !== 'size' && part !== 'least' && part !== 'greatest' && text !== '');
  if (extra !== undefined) return fault(extra.column, extra.text, `nothing, for a ${feature.kind}`);
  switch (feature.kind) {
    case 'count': {
      let [from, to]: [number | null, number | null] = [null, null];
      for (const { text, part, column } of cells) {
        if (text === '') continue;
        const read = readWhole(text);
        if (!read.ok) return fault(column, text, read.expected);
        if (part !== 'greatest') from = read.from;
        if (part !== 'least') to = read.to;
      }
      if (from === null || to === null || from > to)
        return fault(first.column, cells.map(({ text }) => text).join(' to '), 'a count from the smaller number to the larger');
      return doubted(feature, { kind: 'count', from, to }, first.column, cells, reading, confirmed, fault);
    }
    case 'choice': {
      const anyOf: string[] = [];
      for (const text of alternativesOf(first.text, (word) => optionCalled(feature, word).length > 0)) {
        const options = optionCalled(feature, text);
        if (options.length !== 1)
          return fault(
            first.column,
            text,
            options.length > 1
              ? `one of those called so: ${options.join(', ')}`
              : (feature.options ?? []).map(({ name }) => name).join(', or '),
            { likely: nearOptions(feature, text) },
          );
        if (!anyOf.includes(options[0] as string)) anyOf.push(options[0] as string);
      }
      return { ok: true, fact: { kind: 'choice', anyOf } };
    }
    case 'presence': {
      const word = tight(first.text) || first.text;
      if (yes.has(word)) return { ok: true, fact: { kind: 'presence', present: true } };
      if (no.has(word)) return { ok: true, fact: { kind: 'presence', present: false } };
      return fault(first.column, first.text, 'yes, no, or ? where it is not known');
    }
    case 'mark': {
      const [anyOf, all] = [[] as string[], first.text.split('|').map((word) => word.trim())];
      for (const text of all) {
        const letters = /^[“"](.+)[”"]$/.exec(text)?.[1] ?? text;
        if (noLetters.has(tight(text)) && letters === text) continue;
        if (!isPlain(letters)) return fault(first.column, text, plainText);
        if (!anyOf.includes(letters)) anyOf.push(letters);
      }
      return { ok: true, fact: { kind: 'mark', anyOf, blank: all.some((text) => noLetters.has(tight(text)) && !/^[“"]/.test(text)) } };
    }
  }
};

type FaultAt = (column: number, found: string, expected: string, rest?: Partial<Unplaced>) => FactRead;

/** Several with a bar or “or” between them; a text that is one as it stands is one. */
const alternativesOf = (text: string, isOne: (text: string) => boolean): readonly string[] =>
  isOne(text)
    ? [text]
    : text
        .split(/\s*\|\s*|\s+or\s+/i)
        .map((word) => word.trim())
        .filter((word) => word !== '');

/** Ids of the options called so: by id, else by name, else by another word or as it is said. */
const optionCalled = ({ options = [] }: Feature, text: string): readonly string[] => {
  const word = tight(text);
  const kinds = [
    options.filter(({ id }) => id === text),
    options.filter(({ id, name }) => tight(id) === word || tight(name) === word),
    options.filter(
      ({ alsoCalled = [], said }) => alsoCalled.some((other) => tight(other) === word) || (said !== undefined && tight(said) === word),
    ),
  ];
  return (kinds.find((found) => found.length > 0) ?? []).map(({ id }) => id);
};

const nearOptions = ({ options = [] }: Feature, text: string): Unplaced['likely'] => {
  const word = tight(text);
  if (word === '') return [];
  return options
    .filter(({ id, name }) => [id, name].map(tight).some((other) => other.startsWith(word) || (word.length > 3 && other.includes(word))))
    .slice(0, 2)
    .map(({ name }) => ({ text: name, why: 'it begins so, or has this in it' }));
};

/** A size with its limits, from the cell of the size and those beside it; or the fault. */
const measureIn = (
  feature: Feature,
  cells: readonly FigureCell[],
  { expandCode, decimal }: ReadWith,
  fault: FaultAt,
): FactRead | { readonly fact: Extract<Fact, { kind: 'measure' }>; readonly column: number } => {
  const angle = feature.unit === 'deg';
  const read = new Map<FigurePart, { readonly cell: FigureCell; readonly size: SizeRead }>();
  for (const cell of cells) {
    if (cell.text === '' || cell.part === 'code') continue;
    const size = readSize(cell.text, { angle, unit: cell.unit, decimal: cell.number ? 'point' : decimal });
    if (!size.ok) return fault(cell.column, cell.text, size.expected);
    if (cell.part !== 'size' && size.how !== 'alone') return fault(cell.column, cell.text, 'one figure by itself');
    read.set(cell.part, { cell, size });
  }
  const [size, lower, upper, least, greatest] = (['size', 'lower', 'upper', 'least', 'greatest'] as const).map((part) => read.get(part));
  const code = cells.find(({ part, text }) => part === 'code' && text !== '');
  const where = (part: FigurePart): number => cells.find((cell) => cell.part === part)?.column ?? (cells[0] as FigureCell).column;
  const said = [lower ?? upper, least ?? greatest, code].filter((one) => one !== undefined);
  if (said.length > 1 || (size !== undefined && size.size.how !== 'alone' && said.length > 0))
    return fault(
      (code ?? (lower ?? upper ?? least ?? greatest)?.cell ?? (cells[0] as FigureCell)).column,
      cells.map(({ text }) => text).join(' '),
      'one way of saying the limits of a size',
    );
  if (least !== undefined || greatest !== undefined) {
    if (least === undefined || greatest === undefined)
      return fault(where(least === undefined ? 'least' : 'greatest'), '', 'both limits of the size, or neither');
    const [from, to] = [least.size.nominal, greatest.size.nominal];
    if (from > to) return fault(greatest.cell.column, greatest.cell.text, `a limit no less than ${least.cell.text}`);
    const limits =
      size === undefined
        ? limitsOf(from, to)
        : { nominal: size.size.nominal, lower: plainSize(from - size.size.nominal), upper: plainSize(to - size.size.nominal) };
    return { fact: { kind: 'measure', ...limits }, column: (size ?? least).cell.column };
  }
  if (size === undefined) return fault(where('size'), '', 'the size its limits are said of');
  const { nominal } = size.size;
  const { column, within, unit } = size.cell;
  if (lower !== undefined || upper !== undefined) {
    if (lower === undefined || upper === undefined)
      return fault(where(lower === undefined ? 'lower' : 'upper'), '', 'both deviations, 0 too, or neither');
    const [below, above] = [lower.size.nominal, upper.size.nominal];
    if (below > above) return fault(upper.cell.column, upper.cell.text, `an upper deviation no less than the lower, ${lower.cell.text}`);
    return { fact: { kind: 'measure', nominal, lower: below, upper: above }, column };
  }
  const iso = code?.text ?? size.size.code;
  if (iso !== null) {
    const limits = expandCode?.(nominal, iso) ?? { error: 'none are read here' };
    if ('error' in limits)
      return fault((code ?? size.cell).column, (code ?? size.cell).text, `an ISO 286 code for this size (${limits.error})`);
    return { fact: { kind: 'measure', nominal, lower: limits.lower, upper: limits.upper, code: iso }, column };
  }
  if (size.size.how === 'alone' && within !== null && within > 0) {
    const off = sizeOf(within, unit ?? (angle ? 'deg' : 'mm'));
    return { fact: { kind: 'measure', nominal, lower: -off, upper: off }, column };
  }
  return { fact: { kind: 'measure', nominal, lower: size.size.lower, upper: size.size.upper }, column };
};

/** A figure that cannot be is refused, one outside what is plausible is asked about with what may have been meant (O7). */
const doubted = (
  feature: Feature,
  fact: Extract<Fact, { kind: 'measure' | 'count' }>,
  column: number,
  cells: readonly FigureCell[],
  { slipOf }: ReadWith,
  confirmed: ReadonlySet<number>,
  fault: FaultAt,
): FactRead => {
  if (slipOf === undefined) return { ok: true, fact };
  const ends: readonly Seen[] =
    fact.kind === 'count'
      ? [{ kind: 'count', from: fact.from, to: fact.to }]
      : [fact.nominal, plainSize(fact.nominal + fact.lower), plainSize(fact.nominal + fact.upper)].map((value) => ({
          kind: 'measure',
          value,
        }));
  let beyond = false;
  for (const value of ends) {
    const slip = slipOf(feature, value, { kind: 'seen' });
    if (slip.kind === 'plausible') continue;
    const found = cells.find((cell) => cell.column === column)?.text ?? '';
    if (slip.kind === 'impossible') return fault(column, found, 'what can be', { sentence: slip.sentence });
    if (confirmed.has(column)) {
      beyond = true;
      continue;
    }
    const { from, to } = feature.plausible ?? { from: 0, to: 0 };
    return fault(column, found, `what is usual, ${from} to ${to}`, {
      sentence: slip.sentence,
      confirm: 'hard to believe',
      likely: slip.likely.map(({ value: meant, why }) => ({
        text:
          meant.kind === 'measure'
            ? `${meant.value}${feature.unit === 'deg' ? '°' : ' mm'}`
            : meant.kind === 'count'
              ? countText(meant)
              : '',
        why,
      })),
    });
  }
  if (!beyond) return { ok: true, fact };
  const [least, greatest] =
    fact.kind === 'count' ? [fact.from, fact.to] : [fact.nominal + fact.lower, fact.nominal + fact.upper].map(plainSize);
  return { ok: true, fact, beyond: { from: least as number, to: greatest as number } };
};

const countText = ({ from, to }: { readonly from: number; readonly to: number }): string => (from === to ? `${from}` : `${from}..${to}`);
