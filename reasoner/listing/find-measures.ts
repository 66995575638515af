import type { CompiledAtlas } from '../compile/compiled.ts';
import { mmPerInch } from '../plain/units.ts';
import type { Seen } from '../sheet/sheet.ts';
import type { Find } from './listing.ts';
import { asFind, likelihood, slotFactor } from './ranked.ts';
import type { Spoken } from './spoken.ts';
import { shareOf, type Terms, weightsOf } from './terms.ts';
import { firstFrom, numberOf, type Word } from './words.ts';

/**
 * `57.15 mm`, `2.25 in`, `2 1/4"`, `2-1/4 in`, `13/16 in`, `2½ in`, `12°`. The word in is a unit only where no other word follows, or after a broken number.
 * Read with its fraction whatever stands before that, so that a piece of `2.5 1/4 in` is not taken for the whole.
 */
const pattern =
  /(?<![\p{L}\d.,/¼-¾⅐-⅞])(?:(\d+(?:[.,]\d+)?|\.\d+)?(?:(?:(?<=\d)(?:\s+|[-‐‑])|(?<!\d))(\d+)\s*\/\s*(\d+)|\s?([¼-¾⅐-⅞]))|(\d+(?:[.,]\d+)?|\.\d+))\s*(mm\b|millimet(?:er|re)s?\b|inch(?:es)?\b|in\b|["”″]|°|deg(?:rees?)?\b)/giu;

interface Measure {
  readonly from: number;
  readonly to: number;
  readonly unit: 'mm' | 'deg';
  readonly value: number;
}

/** Measures with their unit, and words of a feature in the same clause. A bare number counts only right behind a feature's whole name. */
export const findMeasures = (atlas: CompiledAtlas, terms: Terms, text: string, words: readonly Word[], round: Spoken): Find[] => {
  const features = terms.features.filter(({ feature }) => feature.kind === 'measure');
  const weights = weightsOf(features.map(({ labels }) => labels));
  const measures = measuresIn(text);
  const leads = new Map<number, boolean>();
  const named = measures.flatMap((measure, index) => {
    const at = firstFrom(words, measure.from);
    const here = words[at];
    if (here === undefined) return [];
    const [last, next] = [measures[index - 1], measures[index + 1]];
    // In its clause, from the measure before it up to it, and from it up to the next.
    const inClause = (from: number, to: number): ReadonlySet<string> =>
      new Set(words.slice(from, to).flatMap(({ clause, stem }) => (clause === here.clause ? [stem] : [])));
    const before = inClause(firstFrom(words, last?.to ?? 0), at);
    const after = inClause(firstFrom(words, measure.to), firstFrom(words, next?.from ?? text.length));
    const share = (of: ReadonlySet<string>) => Math.max(0, ...features.map(({ labels }) => shareOf(labels, of, weights)));
    // Within a clause names stand either before their sizes or after them, all alike.
    const lead = leads.get(here.clause) ?? share(before) > 0.2;
    leads.set(here.clause, lead);
    const own = lead ? before : after;
    const spoken = round(at);
    const value: Seen = { kind: 'measure', value: measure.value };
    const scored = features.flatMap(({ feature, labels }) => {
      const said = feature.unit === measure.unit ? shareOf(labels, own, weights) : 0;
      return said < 0.3 ? [] : [{ feature, value, score: said * slotFactor(spoken, feature.slot) * likelihood(atlas, feature, value) }];
    });
    return (
      asFind(
        text,
        measure.from,
        measure.to,
        scored.filter(({ score }) => score > 0.05),
      ) ?? []
    );
  });
  return [...named, ...bareNumbers(atlas, terms, text, words, round)];
};

const measuresIn = (text: string): readonly Measure[] =>
  [...text.matchAll(pattern)].flatMap((found): Measure[] => {
    const [all, before, over, under, vulgar, decimal, sign] = found;
    const to = found.index + all.length;
    const whole = before ?? decimal;
    const fraction = vulgar !== undefined ? vulgarFraction(vulgar) : over !== undefined ? Number(over) / Number(under) : 0;
    // Beside a whole number a fraction is less than one, and beside a decimal there is none.
    if (before !== undefined && (!(fraction > 0 && fraction < 1) || /[.,]/.test(before))) return [];
    const value = (whole === undefined ? 0 : numberOf(whole)) + fraction;
    if (!Number.isFinite(value)) return [];
    const unit = (sign as string).toLowerCase();
    if (unit === 'in' && fraction === 0 && !/[.,]/.test(whole ?? '') && /^\s+\p{L}/u.test(text.slice(to))) return [];
    if (unit === '°' || unit.startsWith('deg')) return [{ from: found.index, to, unit: 'deg', value }];
    const inches = !unit.startsWith('mm') && !unit.startsWith('mil');
    // Decimal sizes times 25.4 are exact to a hundred-thousandth of a millimetre, far below any instrument.
    return [{ from: found.index, to, unit: 'mm', value: inches ? Math.round(value * mmPerInch * 1e5) / 1e5 : value }];
  });

/** ½, ¾, ⅜ …: what it is made of stands either side of its own slash. */
const vulgarFraction = (sign: string): number => {
  const [over, under] = sign.normalize('NFKD').split('⁄').map(Number);
  return Number(over) / Number(under);
};

/** `A/R 18`: the whole name of a feature and a number without its unit. */
const bareNumbers = (atlas: CompiledAtlas, terms: Terms, text: string, words: readonly Word[], round: Spoken): Find[] =>
  words.flatMap((word, at) => {
    if (!/^\d+(?:[.,]\d+)?$/.test(word.text) || /^\s*(?:mm|in|inch|["”″°/¼-¾⅐-⅞]|[-‐‑–]?\d)/iu.test(text.slice(word.to))) return [];
    const spoken = round(at);
    const value = { kind: 'measure', value: numberOf(word.text) } as const;
    if (!Number.isFinite(value.value)) return [];
    let from = word.from;
    const scored = terms.features.flatMap(({ feature, labels }) => {
      if (feature.kind !== 'measure') return [];
      const label = labels.find(
        (one) =>
          one.length <= at &&
          one.every((stem, i) => words[at - one.length + i]?.stem === stem) &&
          words[at - 1]?.sentence === word.sentence,
      );
      if (label === undefined) return [];
      from = Math.min(from, (words[at - label.length] as Word).from);
      return [{ feature, value, score: slotFactor(spoken, feature.slot) * likelihood(atlas, feature, value) }];
    });
    return asFind(text, from, word.to, scored) ?? [];
  });
