import type { Atlas, Fact, Feature, Maker, Model, NumberPattern, Observation, Part, PartId, Sheet } from '../../reasoner/index.ts';

/** The one candidate a plate can be beside the listed ones; no part of any atlas. */
export const numberNotListed = 'a plate whose number is not listed' as PartId;

export interface PlateNotListed {
  readonly makers: readonly string[];
  /** Models of which it is not known whether the plate is theirs. */
  readonly mayBe: ReadonlySet<string>;
}

/**
 * SPEC, "A number nobody lists", read a second time from the page: whether the plate on a sheet is a candidate of its own, of which makers, and of which
 * models it is not known whether it is theirs. `disagrees` is O2 and O3.
 */
export const plateNotListed = (
  atlas: Atlas,
  sheet: Sheet,
  disagrees: (observation: Observation, feature: Feature, fact: Fact | undefined) => boolean,
): PlateNotListed | null => {
  const plate = atlas.slots.find(({ group }) => group === 'plate')?.id;
  const features = new Map(atlas.features.map((feature) => [feature.id, feature]));
  const on = sheet.observations.filter(({ slot, sure }) => slot === plate && sure.kind !== 'told');
  const says = (observation: Observation) => features.get(observation.feature)?.says;
  const lettersIn = ({ value }: Observation) => (value.kind === 'mark' ? (value.text ?? '') : '');
  const texts = (what: Feature['says']) => on.filter((one) => says(one) === what && lettersIn(one) !== '').map(lettersIn);
  const [number] = texts('part number');
  if (plate === undefined || number === undefined || sheet.absent.includes(plate)) return null;
  const plates = atlas.parts.filter((part) => part.slot === plate);
  const bears = (part: Part) =>
    Object.entries(part.facts as Record<string, Fact>).some(
      ([feature, fact]) =>
        features.get(feature as Feature['id'])?.says === 'part number' &&
        fact.kind === 'mark' &&
        fact.anyOf.some((each) => same(each, number)),
    );
  if (atlas.parts.some((part) => part.numbers.some((each) => same(each, number))) || plates.some(bears)) return null;

  const names = texts('trade name');
  const of = (maker: Maker, what: NumberPattern['says']) => (maker.numbering ?? []).filter((pattern) => pattern.says === what);
  const bearing = atlas.makers.filter((maker) => names.every((name) => namesOf(maker).some((each) => same(each, name))));
  const someoneReads = bearing.some((maker) => of(maker, 'part number').some((pattern) => readings(pattern, number).length > 0));
  const others = on.filter((one) => says(one) === undefined || (one.value.kind === 'mark' && lettersIn(one) === ''));
  const alike = (part: Part) =>
    others.every((one) => !disagrees(one, features.get(one.feature) as Feature, (part.facts as Record<string, Fact>)[one.feature]));

  const makers: string[] = [];
  const mayBe = new Set<string>();
  for (const maker of bearing) {
    const own = plates.filter((part) => part.maker === maker.id);
    if (own.length > 0 && !own.some(alike)) continue;
    const patterns = of(maker, 'part number');
    const ways: (Reading | null)[] =
      patterns.length > 0
        ? patterns.flatMap((pattern) => readings(pattern, number)).filter(({ slot }) => slot === null || slot === plate)
        : names.length > 0 || !someoneReads
          ? [null]
          : [];
    for (const way of ways) {
      const spans: Span[] = [];
      if (way !== null) spans.push(way.years);
      for (const name of names) {
        const used = maker.tradeNames.filter((each) => same(each.name, name)).map(({ from, to }): Span => [from ?? -9999, to ?? 9999]);
        if (used.length > 0) spans.push(around(used));
      }
      let read = true;
      for (const serial of texts('serial number')) {
        const known = of(maker, 'serial number');
        const found = known.flatMap((pattern) => readings(pattern, serial).map(({ years }) => years));
        if (known.length > 0 && found.length === 0) read = false;
        if (found.length > 0) spans.push(around(found));
      }
      for (const { value, feature } of on)
        if (features.get(feature)?.says === 'year of make' && value.kind === 'count') spans.push([value.from, value.to]);
      const [first, last] = common(spans);
      if (!read || first > last) continue;
      if (!makers.includes(maker.id)) makers.push(maker.id);
      const drawing = way === null ? [] : own.filter((part) => part.numbers.some((each) => isIssueOf(way, each)));
      for (const model of atlas.models) {
        if (atlas.families.find(({ id }) => id === model.family)?.maker !== maker.id) continue;
        const [from, to] = builtIn(atlas, model);
        if (Math.max(from, first) > Math.min(to, last)) continue;
        const sits = (part: Part) => maySit(atlas, model, part);
        if (drawing.length > 0 && !drawing.some(sits)) continue;
        if (own.some(sits) && !own.some((part) => sits(part) && alike(part))) continue;
        mayBe.add(model.id);
      }
    }
  }
  return makers.length === 0 ? null : { makers: makers.sort(), mayBe };
};

type Span = readonly [from: number, to: number];

const around = (spans: readonly Span[]): Span => [Math.min(...spans.map(([from]) => from)), Math.max(...spans.map(([, to]) => to))];
const common = (spans: readonly Span[]): Span => [
  Math.max(-9999, ...spans.map(([from]) => from)),
  Math.min(9999, ...spans.map(([, to]) => to)),
];

const builtIn = (atlas: Atlas, model: Model): Span => {
  const own = model.from !== null || model.to !== null;
  const { from, to } = own ? model : (atlas.families.find(({ id }) => id === model.family) ?? model);
  return [from ?? -9999, to ?? 9999];
};

/** Listed for the model, itself or by what it supersedes. */
const maySit = (atlas: Atlas, model: Model, part: Part): boolean => {
  for (let at: Part | undefined = part; at !== undefined; ) {
    const now: Part = at;
    if (model.allowed.some((entry) => entry.part === now.id)) return true;
    at = atlas.parts.find(({ id }) => id === now.supersedes);
  }
  return false;
};

const plain = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, '');
const same = (a: string, b: string): boolean => plain(a) === plain(b);
const namesOf = (maker: Maker): string[] => [maker.name, ...maker.tradeNames.map(({ name }) => name)];

interface Reading {
  readonly pattern: NumberPattern;
  readonly slot: string | null;
  readonly years: Span;
  /** What stands in each piece but an issue. */
  readonly but: string;
}

const isIssueOf = ({ pattern, but }: Reading, other: string): boolean =>
  pattern.pieces.some((piece) => piece.kind === 'digits' && piece.issue === true) &&
  readings(pattern, other, false).some((reading) => reading.but === but);

/** Ways a pattern reads a number, its check digit right unless that is not asked: the pattern as one expression, a group to a piece. */
const readings = (pattern: NumberPattern, number: string, checked = true): Reading[] => {
  const expression = pattern.pieces
    .map((piece) => {
      switch (piece.kind) {
        case 'fixed':
          return `(${plain(piece.text)})`;
        case 'slot':
          return `(${Object.keys(piece.codes).map(plain).join('|')})`;
        case 'digits':
          return `(\\d{${piece.count}})`;
        case 'year':
          return `(\\d{${piece.figures}})`;
        case 'check digit':
          return `(\\d|${plain(piece.ten)})`;
        default:
          throw new Error(`no such piece is made up: ${piece.kind}`);
      }
    })
    .join('');
  const found = new RegExp(`^${expression}$`).exec(plain(number));
  if (found === null) return [];
  const groups = found.slice(1);
  let slot: string | null = null;
  let years: Span = [pattern.from ?? -9999, pattern.to ?? 9999];
  let stands = '';
  const but: string[] = [];
  for (const [i, piece] of pattern.pieces.entries()) {
    const text = groups[i] as string;
    if (piece.kind === 'slot') slot = Object.entries(piece.codes).find(([code]) => plain(code) === text)?.[1] ?? null;
    if (piece.kind === 'year') {
      const year = yearOf(pattern, text, piece.figures);
      if (year === null) return [];
      years = [year, year];
    }
    if (checked && piece.kind === 'check digit') {
      let sum = 0;
      for (const [place, figure] of [...stands].entries()) sum += Number(figure) * (piece.weights[place % piece.weights.length] as number);
      const rest = sum % piece.modulus;
      const right = piece.stamps === 'remainder' ? rest : rest === 0 ? 0 : piece.modulus - rest;
      if (text !== (right === 10 ? plain(piece.ten) : `${right}`)) return [];
    }
    stands += text.replace(/\D/g, '');
    but.push(piece.kind === 'digits' && piece.issue === true ? '' : text);
  }
  return [{ pattern, slot, years, but: but.join(' ') }];
};

const yearOf = ({ from, to }: NumberPattern, text: string, figures: 2 | 4): number | null => {
  const within = (year: number) => year >= (from ?? -9999) && year <= (to ?? 9999);
  if (figures === 4) return within(Number(text)) && Number(text) >= 1000 ? Number(text) : null;
  for (let year = from ?? 9999; year < (from ?? 9999) + 100; year++) if (year % 100 === Number(text)) return within(year) ? year : null;
  return null;
};
