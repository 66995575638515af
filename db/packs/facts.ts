import type { Fact, Feature, Seen } from '../../reasoner/index.ts';
import type { CsvRow } from '../atlas/pack.ts';
import type { ExpandCode, SlipOf } from '../read/asked.ts';
import { shown } from '../read/faults.ts';
import { isPlain, plainText } from '../read/plain-text.ts';

type Cells = Pick<CsvRow<'facts.csv'>, 'value' | 'lower' | 'upper' | 'code'>;
type Column = keyof Cells;

export type ReadFact =
  | { readonly ok: true; readonly fact: Fact }
  | {
      readonly ok: false;
      readonly column: Column;
      readonly found: string;
      readonly expected: string;
      /** What is written, where it can be read and is not plausible. */
      readonly figure?: Seen;
    };

/**
 * One row of facts.csv as a fact about `feature`. Measures in the feature's unit (mm or degrees).
 * @param slipOf says what may have been meant by a figure that is not plausible
 */
export const readFact = (cells: Cells, feature: Feature, expand: ExpandCode, slipOf?: SlipOf): ReadFact => {
  const read = readAsIs(cells, feature, expand);
  if (read.ok || read.figure === undefined) return read;
  const slip = slipOf?.(feature, read.figure, { kind: 'told' });
  const likely = slip?.kind === 'implausible' ? slip.likely.map(({ sentence }) => sentence) : [];
  return likely.length === 0 ? read : { ...read, expected: `${read.expected} (${likely.join('; or ')})` };
};

const readAsIs = (cells: Cells, feature: Feature, expand: ExpandCode): ReadFact => {
  if (cells.value === '?')
    return cells.lower + cells.upper + cells.code === ''
      ? fact({ kind: 'not known' })
      : refused(sizeColumn(cells), cells, 'nothing beside ?');
  if (cells.value === '') return refused('value', cells, 'a value, or ? where it is not known');
  if (feature.kind !== 'measure') {
    const extra = sizeColumn(cells);
    if (cells[extra] !== '') return refused(extra, cells, `nothing, for a ${feature.kind}`);
  }
  switch (feature.kind) {
    case 'count':
      return readCount(cells, feature);
    case 'measure':
      return readMeasure(cells, feature, expand);
    case 'choice':
      return readChoice(cells, feature);
    case 'presence':
      if (cells.value !== 'yes' && cells.value !== 'no') return refused('value', cells, 'yes, no or ?');
      return fact({ kind: 'presence', present: cells.value === 'yes' });
    case 'mark':
      return readMark(cells);
  }
};

const readCount = (cells: Cells, feature: Feature): ReadFact => {
  const match = /^(\d{1,9})(?:\.\.(\d{1,9}))?$/.exec(cells.value);
  if (match === null) return refused('value', cells, 'a whole number such as 10, or a range such as 10..12');
  const from = Number(match[1]);
  const to = Number(match[2] ?? match[1]);
  if (from > to) return refused('value', cells, 'a range from the smaller number to the larger');
  return outside(feature, from, to, { kind: 'count', from, to }) ?? fact({ kind: 'count', from, to });
};

const readMeasure = (cells: Cells, feature: Feature, expand: ExpandCode): ReadFact => {
  const unit = feature.unit === 'deg' ? 'degrees' : 'millimetres';
  const nominal = numberIn(cells.value);
  if (nominal === null) return refused('value', cells, `a number of ${unit} such as 57.2`);
  if (cells.code !== '') {
    for (const column of ['lower', 'upper'] as const)
      if (cells[column] !== '') return refused(column, cells, 'nothing beside an ISO 286 code');
    const limits = expand(nominal, cells.code);
    if ('error' in limits)
      return { ok: false, column: 'code', found: shown(cells.code), expected: `an ISO 286 code for this size (${limits.error})` };
    const { lower, upper } = limits;
    return (
      outside(feature, decimal(nominal + lower), decimal(nominal + upper), { kind: 'measure', value: nominal }) ??
      fact({ kind: 'measure', nominal, lower, upper, code: cells.code })
    );
  }
  const lower = numberIn(cells.lower);
  if (lower === null) return refused('lower', cells, 'a lower deviation such as -0.05 (0 must be written), or an ISO 286 code');
  const upper = numberIn(cells.upper);
  if (upper === null) return refused('upper', cells, 'an upper deviation such as 0.05 (0 must be written), or an ISO 286 code');
  if (lower > upper) return refused('upper', cells, `an upper deviation no less than the lower, ${lower}`);
  return (
    outside(feature, decimal(nominal + lower), decimal(nominal + upper), { kind: 'measure', value: nominal }) ??
    fact({ kind: 'measure', nominal, lower, upper })
  );
};

/**
 * A fault where a part's limits lie outside what its feature says is plausible (O7): one of the two is wrong, and readings true to the part would
 * be doubted. Null where they lie within, or nobody has said.
 */
const outside = ({ plausible, kind, unit }: Feature, least: number, greatest: number, figure: Seen): ReadFact | null => {
  if (plausible === undefined || (least >= plausible.from && greatest <= plausible.to)) return null;
  const sign = kind === 'count' ? '' : unit === 'deg' ? '°' : ' mm';
  const found = least === greatest ? numberText(least) : `${numberText(least)} to ${numberText(greatest)}`;
  return {
    ok: false,
    column: 'value',
    found: `${found}${sign}`,
    expected: `what the feature holds plausible, ${plausible.from} to ${plausible.to}${sign}`,
    figure,
  };
};

/** Without what binary arithmetic adds behind the twelfth figure. */
const decimal = (size: number): number => Number(size.toPrecision(12));

const readChoice = (cells: Cells, feature: Feature): ReadFact => {
  const anyOf = cells.value.split('|');
  const options = feature.options?.map((option) => option.id) ?? [];
  for (const option of anyOf)
    if (!options.includes(option)) return { ok: false, column: 'value', found: shown(option), expected: options.join(' or ') };
  return new Set(anyOf).size === anyOf.length ? fact({ kind: 'choice', anyOf }) : refused('value', cells, 'every option once');
};

const readMark = (cells: Cells): ReadFact => {
  const alternatives = cells.value.split('|');
  const anyOf = alternatives.filter((text) => text !== blank);
  if (anyOf.some((text) => text === '' || !isPlain(text))) return refused('value', cells, `letters between the bars, ${plainText}`);
  if (new Set(alternatives).size !== alternatives.length) return refused('value', cells, 'every alternative once');
  return fact({ kind: 'mark', anyOf, blank: anyOf.length < alternatives.length });
};

/** The cells a fact is written as; `readFact` gives it back. */
export const writeFact = (of: Fact): Cells => {
  const only = (value: string): Cells => ({ value, lower: '', upper: '', code: '' });
  switch (of.kind) {
    case 'count':
      return only(of.from === of.to ? `${of.from}` : `${of.from}..${of.to}`);
    case 'measure':
      return of.code === undefined
        ? { value: numberText(of.nominal), lower: numberText(of.lower), upper: numberText(of.upper), code: '' }
        : { value: numberText(of.nominal), lower: '', upper: '', code: of.code };
    case 'choice':
      return only(of.anyOf.join('|'));
    case 'presence':
      return only(of.present ? 'yes' : 'no');
    case 'mark':
      return only([...of.anyOf, ...(of.blank ? [blank] : [])].join('|'));
    case 'not known':
      return only('?');
  }
};

const blank = '(blank)';

/** A plain decimal number of at most a million either way; null for anything else. */
const numberIn = (text: string): number | null => {
  if (!/^-?\d{1,7}(\.\d{1,12})?$/.test(text)) return null;
  const value = Number(text);
  return Math.abs(value) > 1_000_000 ? null : value === 0 ? 0 : value;
};

/** The shortest decimal that reads back as the same number, never with an exponent. */
const numberText = (value: number): string => {
  const text = String(value);
  return text.includes('e') ? value.toFixed(12).replace(/0+$/, '') : text;
};

const fact = (of: Fact): ReadFact => ({ ok: true, fact: of });
const refused = (column: Column, cells: Cells, expected: string): ReadFact => ({
  ok: false,
  column,
  found: cells[column] === '' ? 'nothing' : shown(cells[column]),
  expected,
});
const sizeColumn = (cells: Cells): Column => (cells.lower !== '' ? 'lower' : cells.upper !== '' ? 'upper' : 'code');
