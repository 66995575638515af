import type { Feature } from '../atlas/atlas.ts';
import { type LengthUnit, mmPerInch } from '../plain/units.ts';
import type { Seen, Sure } from '../sheet/sheet.ts';
import type { Slip, SlipHow, Wrong } from '../sheet/slip.ts';
import { figuresOf, implausibleSentence, impossibleSentence, slipReason, wideSentence } from '../words/slip-sentences.ts';

/** Greater sizes, in mm, and greater counts are no figures of a part (1 km, a million blades). */
const absurd = 1_000_000;
/** So many of what may have been meant are offered. */
const most = 2;

/**
 * Whether an entry's figures can be, and whether they lie in the range the feature's vocabulary holds plausible, both ends included (O7).
 * A length is greater than zero unless its range reaches to zero or below. Without a range nothing possible is asked about.
 * @param value a count, or a measure in mm or degrees; of all else nothing is said
 * @param sure the uncertainty of what was measured is looked at too, in the feature's unit
 * @param lengths what lengths are said in
 */
export const slipOf = (feature: Feature, value: Seen, sure?: Sure, lengths: LengthUnit = 'mm'): Slip => {
  if (value.kind !== 'measure' && value.kind !== 'count') return plausible;
  const wrong = value.kind === 'measure' ? wrongSize(feature, value.value) : wrongCount(value);
  if (wrong !== null) return { kind: 'impossible', of: 'figure', sentence: impossibleSentence(feature, value, wrong, lengths) };
  const { plausible: range } = feature;
  if (value.kind === 'measure' && sure?.kind === 'measured') {
    if (!(sure.u > 0) || !Number.isFinite(sure.u))
      return {
        kind: 'impossible',
        of: 'uncertainty',
        sentence: impossibleSentence(feature, { kind: 'measure', value: sure.u }, 'uncertainty', lengths),
      };
    // A reading that could be of anything plausible tells nothing of the part.
    if (sure.u > (range === undefined ? absurd : range.to - range.from))
      return { kind: 'impossible', of: 'uncertainty', sentence: wideSentence(feature, sure.u, lengths) };
  }
  if (range === undefined) return plausible;
  const within = (figure: number): boolean => figure >= range.from && figure <= range.to;
  if (value.kind === 'measure' ? within(value.value) : within(value.from) && within(value.to)) return plausible;
  const meant = value.kind === 'measure' ? meantSizes(feature, value.value) : meantCounts(feature, value, within);
  return {
    kind: 'implausible',
    sentence: implausibleSentence(feature, value, lengths),
    likely: once(
      meant.filter(({ value: one }) =>
        one.kind === 'count' ? within(one.from) && within(one.to) && one.from <= one.to : within(one.value),
      ),
    )
      .slice(0, most)
      .map(({ how, value: one }) => {
        const why = slipReason(feature, value, how, lengths);
        return { how, value: one, why, sentence: `${figuresOf(feature, one, lengths)}, ${why}` };
      }),
  };
};

const plausible: Slip = { kind: 'plausible' };

const wrongSize = ({ unit, plausible: range }: Feature, size: number): Wrong | null => {
  if (!Number.isFinite(size)) return 'no figure';
  if (Math.abs(size) > absurd) return 'absurd';
  if (unit === 'deg') return Math.abs(size) > 360 ? 'more than a turn' : null;
  return size <= 0 && (range === undefined || range.from > 0) ? 'not above zero' : null;
};

const wrongCount = ({ from, to }: Extract<Seen, { kind: 'count' }>): Wrong | null => {
  for (const figure of [from, to]) {
    if (!Number.isFinite(figure)) return 'no figure';
    if (!Number.isInteger(figure)) return 'not whole';
    if (figure < 0) return 'below zero';
    if (figure > absurd) return 'absurd';
  }
  return from > to ? 'runs down' : null;
};

interface Meant {
  readonly how: SlipHow;
  readonly value: Extract<Seen, { kind: 'measure' | 'count' }>;
}

/** What may have been meant by a size, likeliest first: common practice of the counter, no source. */
const meantSizes = ({ unit, name }: Feature, size: number): Meant[] => {
  const of = (how: SlipHow, ...sizes: readonly number[]): Meant[] =>
    sizes.map((one) => ({ how, value: { kind: 'measure', value: decimal(one) } }));
  const length = unit !== 'deg';
  return [
    ...(length ? [...of('inches', size * mmPerInch), ...(wasInches(size) ? of('millimetres', size / mmPerInch) : [])] : []),
    ...of('decimal point', size * 10, size / 10, size * 100, size / 100, size * 1000, size / 1000),
    ...of('figure twice', ...withoutTwins(String(size))),
    ...of('swapped', ...swapped(String(size))),
    ...(length && /\bdiameter\b/i.test(name) ? of('radius', size * 2) : []),
    ...(length && /\bradius\b/i.test(name) ? of('diameter', size / 2) : []),
  ];
};

/** A size that is a plain figure of inches, three decimals at most, may have been entered as inches. */
const wasInches = (size: number): boolean => Math.abs(size / mmPerInch - Number((size / mmPerInch).toFixed(3))) < 1e-9;

const meantCounts = ({ unit }: Feature, { from, to }: Extract<Seen, { kind: 'count' }>, within: (figure: number) => boolean): Meant[] => {
  const slips: readonly (readonly [SlipHow, (figure: number) => readonly number[]])[] = [
    ...(unit === 'year' ? ([['century', (figure: number) => (figure < 100 ? [1900 + figure, 2000 + figure] : [])]] as const) : []),
    ['figure twice', (figure) => withoutTwins(String(figure))],
    ['swapped', (figure) => swapped(String(figure))],
    ['figure too many', (figure) => withoutOne(String(figure))],
  ];
  // Only the end that is out is read anew; where both are, both are.
  return slips.flatMap(([how, meant]) => {
    const ends = (figure: number): readonly number[] => (within(figure) ? [figure] : meant(figure));
    if (from === to) return ends(from).map((one): Meant => ({ how, value: { kind: 'count', from: one, to: one } }));
    return ends(from).flatMap((low) => ends(to).map((high): Meant => ({ how, value: { kind: 'count', from: low, to: high } })));
  });
};

/** The figure with one of two neighbours that are alike left out. */
const withoutTwins = (figures: string): number[] =>
  [...figures].flatMap((figure, i) =>
    /\d/.test(figure) && figures[i + 1] === figure ? [Number(figures.slice(0, i) + figures.slice(i + 1))] : [],
  );

/** The figure with one left out, the last first. */
const withoutOne = (figures: string): number[] =>
  figures.length < 2 ? [] : [...figures].map((_, i) => Number(figures.slice(0, i) + figures.slice(i + 1))).reverse();

/** The figure with two neighbours in the other order; a decimal point stays where it is. */
const swapped = (figures: string): number[] =>
  [...figures].flatMap((figure, i) => {
    const next = figures[i + 1] === '.' ? i + 2 : i + 1;
    const other = figures[next];
    if (!/\d/.test(figure) || other === undefined || other === figure) return [];
    const signs = [...figures];
    [signs[i], signs[next]] = [other, figure];
    return [Number(signs.join(''))];
  });

const once = (meant: readonly Meant[]): Meant[] => {
  const seen = new Set<string>();
  return meant.filter(({ value }) => {
    const key = JSON.stringify(value);
    return !seen.has(key) && seen.add(key);
  });
};

/** Without what binary arithmetic adds behind the twelfth figure. */
const decimal = (size: number): number => Number(size.toPrecision(12));
