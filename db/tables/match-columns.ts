import type { Feature, FeatureId, Slot, SlotId } from '../../reasoner/index.ts';
import { distance } from '../../reasoner/plain/distance.ts';
import { list } from '../../reasoner/plain/text.ts';
import { fold, tight } from '../plain/fold.ts';
import type { Cell } from './cells.ts';
import type { ColumnUse, FigurePart, PlainUse, TableKind, WrittenUnit } from './column-use.ts';
import type { Known } from './known.ts';
import { isMarkHeading, outHeading } from './marks.ts';
import { unitCalled } from './read-figure.ts';

/** What a column was taken for, how surely, and why. */
export interface ColumnMatch {
  readonly use: ColumnUse;
  /** `asked`: it may be several things, none of which was taken. */
  readonly sure: 'certain' | 'likely' | 'asked' | 'none';
  /** A sentence. */
  readonly why: string;
  /** What else it may be. */
  readonly others: readonly ColumnUse[];
}

/** A column as it is matched: its heading, and some of what stands under it. */
export interface Column {
  readonly heading: string;
  readonly sample: readonly Cell[];
}

/** Headings a shop may use, beside the atlas’s own words: common practice, no source. */
const words: Readonly<Record<TableKind, Readonly<Partial<Record<PlainUse, readonly string[]>>>>> = {
  parts: {
    id: ['id', 'part id', 'kinplate id'],
    name: ['name', 'part name', 'description', 'title', 'designation', 'part description'],
    slot: ['slot', 'kind of part', 'part type', 'type', 'component', 'category', 'part kind', 'kind'],
    maker: ['maker', 'make', 'manufacturer', 'brand', 'made by', 'mfr'],
    numbers: [
      'number',
      'numbers',
      'part number',
      'part numbers',
      'part no',
      'part nos',
      'part nr',
      'pn',
      'p n',
      'number s',
      'article',
      'article number',
      'article no',
      'other number',
      'other numbers',
      'old number',
      'old numbers',
      'item no',
      'item number',
      'stock code',
      'sku',
    ],
    'pattern of': ['pattern of', 'copy of', 'made to the pattern of'],
    supersedes: ['supersedes', 'replaces', 'in place of', 'takes the place of'],
    source: ['source', 'where from'],
    'as brought out': [outHeading],
  },
  models: {
    id: ['id', 'model id', 'kinplate id'],
    name: ['model', 'name', 'model name', 'unit', 'type'],
    family: ['family', 'line', 'range', 'series'],
    generation: ['generation', 'gen'],
    from: ['from', 'from year', 'first year', 'built from', 'years from', 'start'],
    to: ['to', 'to year', 'last year', 'built to', 'years to', 'end'],
    'pattern of': ['pattern of', 'copy of'],
    'open-ended': ['open ended', 'list not whole', 'lists not whole'],
    source: ['source', 'where from'],
    'as brought out': [outHeading],
  },
  facts: {
    part: ['part', 'part number', 'part no', 'part nr', 'pn', 'p n', 'number', 'part id', 'id', 'article'],
    slot: ['slot', 'kind of part', 'part type', 'component'],
    feature: ['feature', 'dimension', 'what', 'measure', 'characteristic', 'property'],
    value: ['value', 'size', 'reading', 'nominal'],
    lower: ['lower', 'lower deviation', 'lower tolerance', 'minus'],
    upper: ['upper', 'upper deviation', 'upper tolerance', 'plus'],
    code: ['code', 'iso', 'iso 286', 'iso code', 'fit', 'tolerance class'],
    unit: ['unit', 'units'],
    source: ['source', 'where from'],
    'as brought out': [outHeading],
  },
};

const usesBy = (kind: TableKind): ReadonlyMap<string, PlainUse> =>
  new Map(Object.entries(words[kind]).flatMap(([use, all]) => all.map((one) => [tight(one), use as PlainUse] as const)));
const uses = { parts: usesBy('parts'), models: usesBy('models'), facts: usesBy('facts') } as const;

/** Uses that two columns may have. */
const several: readonly PlainUse[] = ['ignored', 'numbers', 'name'];

/**
 * What each column is, by its heading: words of the table itself, then the atlas’s features and slots by name and other words, alone or beside the slot’s, shortened,
 * or all but spelled so; and where no heading tells, by what stands under it. Case, accents, spaces and signs do not count, and a unit behind the heading is taken off.
 * @param only the slots its rows are of, where that is known
 */
export const matchColumns = (
  kind: TableKind,
  columns: readonly Column[],
  known: Known,
  only: readonly SlotId[] | null,
): readonly ColumnMatch[] => {
  const slots = only === null ? known.beside.slots : known.beside.slots.filter(({ id }) => only.includes(id));
  const found = columns.map((column) => matchOf(kind, column, known, slots));
  const sharper = withoutStrays(found, columns, known);
  const taken = new Map<string, number>();
  return sharper.map((match, at): ColumnMatch => {
    const key = keyOf(match.use);
    const before = taken.get(key);
    if (match.use.is === 'ignored' || several.includes(match.use.is as PlainUse)) return match;
    if (before === undefined) {
      taken.set(key, at);
      return match;
    }
    return {
      use: { is: 'ignored' },
      sure: 'asked',
      why: `“${columns[before]?.heading}” was already taken for that.`,
      others: [match.use, ...match.others],
    };
  });
};

const keyOf = (use: ColumnUse): string =>
  use.is === 'figure' ? `${use.part} ${use.features.join(' ')}` : use.is === 'fitted' ? `${use.slot} ${use.role}` : use.is;

/** A feature that one column is called by is not also meant by a column that only bears another word for it. */
const withoutStrays = (found: readonly ColumnMatch[], columns: readonly Column[], known: Known): readonly ColumnMatch[] => {
  const named = new Map<FeatureId, number>();
  found.forEach(({ use }, at) => {
    if (use.is !== 'figure' || use.part !== 'size') return;
    const heading = tight(headingOf(columns[at]?.heading ?? '').bare);
    for (const id of use.features) if (tight(known.feature.get(id)?.name ?? '') === heading) named.set(id, at);
  });
  return found.map((match, at) => {
    const { use } = match;
    if (use.is !== 'figure' || use.part !== 'size') return match;
    const own = use.features.filter((id) => (named.get(id) ?? at) === at);
    return own.length === use.features.length || own.length === 0 ? match : { ...match, use: { ...use, features: own } };
  });
};

const matchOf = (
  kind: TableKind,
  { heading, sample }: Column,
  known: Known,
  slots: readonly Slot[],
  levels: readonly Level[] = [exactly, besideSlot, shortened, misspelled],
): ColumnMatch => {
  const { bare, unit } = headingOf(heading);
  const word = fold(bare);
  if (isMarkHeading(heading)) return certain({ is: 'as brought out' }, 'It tells which cells were edited since the table was brought out.');
  if (word !== '') {
    const plain = uses[kind].get(tight(bare));
    if (plain !== undefined) return certain({ is: plain }, `“${heading}” says so.`);
    if (kind === 'models') {
      const fitted = fittedCalled(bare, known);
      if (fitted !== null) return certain(fitted, `“${heading}” is a slot.`);
    }
    if (kind === 'parts') {
      const figure = figureCalled(bare, heading, unit, known, slots, levels);
      if (figure !== null) return figure;
    }
  }
  return (
    bySample(kind, sample, known) ?? {
      use: { is: 'ignored' },
      sure: 'none',
      why: word === '' ? 'It has no heading.' : `The atlas knows nothing called “${bare}”.`,
      others: [],
    }
  );
};

const certain = (use: ColumnUse, why: string): ColumnMatch => ({ use, sure: 'certain', why, others: [] });

const unitBehind =
  /^(.*?)\s*(?:[([{]\s*([^()[\]{}]{1,10}?)\s*[)\]}]|[,;:/]\s*(mm|cm|in|inch|inches|deg|degrees|°|")|\s(mm|inch|inches|deg))\s*$/i;

/** A heading without the unit behind it: `inducer (in)`, `bore [mm]`, `cutback, °`. What stands in brackets and is no unit stays. */
export const headingOf = (heading: string): { readonly bare: string; readonly unit: WrittenUnit | null } => {
  const text = heading.replace(/\s+/g, ' ').trim();
  const parts = unitBehind.exec(text);
  const unit = parts === null ? null : unitCalled(parts[2] ?? parts[3] ?? parts[4] ?? '');
  return parts === null || unit === null || parts[1] === '' ? { bare: text, unit: null } : { bare: parts[1] as string, unit };
};

const fittedCalled = (bare: string, known: Known): ColumnUse | null => {
  const parts = /^(.*?)\s*[([]?\b(names|options?|service)\b[)\]]?$/i.exec(bare);
  const [slot] = [bare, bare.replace(/s$/i, ''), parts?.[1] ?? '', (parts?.[1] ?? '').replace(/s$/i, '')].flatMap((text) =>
    known.slot(text),
  );
  if (slot === undefined) return null;
  const role = known.slot(bare).length > 0 ? undefined : parts?.[2]?.toLowerCase();
  return {
    is: 'fitted',
    slot: slot.id,
    role: role === undefined || role === 'names' ? 'names' : role === 'service' ? 'service' : 'option',
  };
};

/** What is said of a size behind its name. Common practice, no source. */
const partWords: readonly (readonly [FigurePart, RegExp])[] = [
  ['lower', /\s+(?:lower(?: dev(?:iation)?| tol(?:erance)?)?|minus|tol minus)$/],
  ['upper', /\s+(?:upper(?: dev(?:iation)?| tol(?:erance)?)?|plus|tol plus)$/],
  ['least', /\s+(?:min|minimum|least|from)$/],
  ['greatest', /\s+(?:max|maximum|greatest|to)$/],
  ['code', /\s+(?:code|iso|iso 286|fit|tolerance class)$/],
];

const figureCalled = (
  bare: string,
  heading: string,
  unit: WrittenUnit | null,
  known: Known,
  slots: readonly Slot[],
  levels: readonly Level[],
): ColumnMatch | null => {
  const whole = fold(bare);
  const tries: (readonly [FigurePart, string])[] = [['size', whole]];
  for (const [part, pattern] of partWords) if (pattern.test(whole)) tries.push([part, whole.replace(pattern, '')]);
  if (/\S\s*\+$/.test(bare)) tries.push(['upper', whole]);
  if (/\S\s*[-−–]$/.test(bare)) tries.push(['lower', whole]);
  // A sign behind the heading is said of the size, not a part of its name.
  if (tries.length > 1 && tries.some(([part, text]) => part !== 'size' && text === whole)) tries.shift();
  for (const level of levels) {
    for (const [part, text] of tries) {
      if (text === '') continue;
      const each = slots.map((slot) => level(text, slot, known));
      const features = each.flatMap((all) => (all.length === 1 ? [all[0] as Feature] : []));
      const unsure = each.flatMap((all) => (all.length > 1 ? all : []));
      const use = (of: readonly Feature[]): ColumnUse => ({ is: 'figure', features: of.map(({ id }) => id), part, unit, within: null });
      if (features.length === 0 && unsure.length > 0)
        return {
          use: { is: 'ignored' },
          sure: 'asked',
          why: `“${heading}” may be ${list(
            unsure.slice(0, 4).map(({ name }) => name),
            'or',
          )}.`,
          others: unsure.slice(0, 12).map((one) => use([one])),
        };
      if (features.length === 0) continue;
      if (
        part !== 'size' &&
        features.every(({ kind }) => kind !== 'measure' && !(kind === 'count' && (part === 'least' || part === 'greatest')))
      )
        continue;
      const sure = level === exactly || level === besideSlot ? 'certain' : 'likely';
      return {
        use: use(features),
        sure,
        why: whyOf(heading, features, known, level === misspelled),
        others: unsure.map((one) => use([one])),
      };
    }
  }
  return null;
};

const whyOf = (heading: string, features: readonly Feature[], known: Known, misspelled: boolean): string => {
  const names = [...new Set(features.map(({ name }) => name))];
  const slots = features.map(({ slot }) => known.slotName(slot));
  const of = slots.length > 4 ? `${slots.length} kinds of part` : `the ${list(slots)}`;
  const what = `${list(names.map((name) => `“${name}”`))} of ${of}`;
  return misspelled ? `“${heading}” is written almost like ${what}.` : `“${heading}” is ${what}.`;
};

type Level = (text: string, slot: Slot, known: Known) => readonly Feature[];

const exactly: Level = (text, slot, known) => known.featureOf(slot.id, text);

/** `compressor wheel bore`, `bore of the compressor wheel`. */
const besideSlot: Level = (text, slot, known) => {
  for (const word of [slot.name, ...(slot.alsoCalled ?? [])].map(fold)) {
    const rest = text.startsWith(`${word} `)
      ? text.slice(word.length + 1)
      : text.endsWith(` ${word}`)
        ? text.slice(0, -word.length - 1).replace(/ (of|of the|at|at the)$/, '')
        : null;
    if (rest === null) continue;
    const found = known.featureOf(slot.id, rest);
    const near = found.length > 0 ? found : shortened(rest, slot, known);
    if (near.length > 0) return near;
  }
  return [];
};

/** How words are shortened in headings: common practice, no source. */
const long: ReadonlyMap<string, string> = new Map([
  ['dia', 'diameter'],
  ['diam', 'diameter'],
  ['d', 'diameter'],
  ['od', 'outside diameter'],
  ['id', 'inside diameter'],
  ['len', 'length'],
  ['qty', 'count'],
  ['no', 'count'],
  ['num', 'count'],
  ['number', 'count'],
  ['comp', 'compressor'],
  ['turb', 'turbine'],
  ['brg', 'bearing'],
  ['ht', 'height'],
  ['thk', 'thickness'],
  ['ind', 'inducer'],
  ['exd', 'exducer'],
  ['exh', 'exducer'],
]);

/** Every word of it is one of the feature’s name, and the first of them too, or its one word of weight. */
const shortened: Level = (text, slot, known) => {
  const asked = text.split(' ').flatMap((word) => (long.get(word) ?? word).split(' '));
  const fits = known
    .wordsOf(slot.id)
    .filter(({ words: all }) =>
      asked.every((word) => all.includes(word) || all.includes(word.replace(/s$/, '')) || all.includes(`${word}s`)),
    );
  // “inducer” is the wheel’s inducer diameter before it is a contour’s: of several, those with the fewest words besides.
  const least = Math.min(...fits.map(({ words: all }) => all.length));
  return [...new Set(fits.filter(({ words: all }) => all.length === least).map(({ feature }) => feature))];
};

const misspelled: Level = (text, slot, known) => {
  const word = text.replace(/ /g, '');
  const most = word.length >= 8 ? 2 : word.length >= 5 ? 1 : 0;
  if (most === 0 || word.length > 40) return [];
  const near = known
    .wordsOf(slot.id)
    .filter(({ tight: other }) => Math.abs(other.length - word.length) <= most && distance(other, word) <= most);
  return [...new Set(near.map(({ feature }) => feature))];
};

/** A column without a heading that tells: by what most of its cells are. */
const bySample = (kind: TableKind, sample: readonly Cell[], known: Known): ColumnMatch | null => {
  const texts = sample.map(({ text }) => text).filter((text) => text !== '');
  if (texts.length === 0) return null;
  const most = (is: (text: string) => boolean): boolean => texts.filter(is).length > texts.length / 2;
  const likely = (use: ColumnUse, what: string): ColumnMatch => ({
    use,
    sure: 'likely',
    why: `Most of its cells are ${what}.`,
    others: [],
  });
  const numbered = (text: string) => known.partsNumbered(text).length > 0 || known.part.has(text as never);
  if (kind !== 'models' && most((text) => known.slot(text).length > 0)) return likely({ is: 'slot' }, 'kinds of part');
  if (kind === 'parts' && most((text) => known.maker(text).length > 0)) return likely({ is: 'maker' }, 'makers of the atlas');
  if (kind !== 'models' && most(numbered)) return likely({ is: kind === 'parts' ? 'numbers' : 'part' }, 'part numbers of the atlas');
  if (kind === 'models' && most((text) => known.familiesCalled(text).length > 0)) return likely({ is: 'family' }, 'families of the atlas');
  return null;
};

/** So many rows are looked at for what a column without a heading holds. */
const sampled = 50;

/** The columns of a sheet under the headings of a row (0: none). What its own column of slots holds, or the slot of all rows, says whose features are meant. */
export const matchSheet = (
  kind: TableKind,
  rows: readonly (readonly Cell[])[],
  headings: number,
  known: Known,
  slot: SlotId | null,
): readonly ColumnMatch[] => {
  const heads = headings === 0 ? [] : (rows[headings - 1] ?? []);
  const below = rows.slice(headings);
  const width = rows.reduce((most, cells) => Math.max(most, cells.length), 0);
  const columns = Array.from({ length: width }, (_, at) => ({
    heading: heads[at]?.text ?? '',
    sample: below.slice(0, sampled).flatMap((cells) => cells[at] ?? []),
  }));
  if (slot !== null) return matchColumns(kind, columns, known, [slot]);
  const matched = matchColumns(kind, columns, known, null);
  const at = matched.findIndex(({ use }) => use.is === 'slot');
  if (at < 0) return matched;
  const said = new Set(below.flatMap((cells) => known.slot(cells[at]?.text ?? '').map(({ id }) => id)));
  return said.size === 0 ? matched : matchColumns(kind, columns, known, [...said]);
};

/** The row that most of all reads as headings, among the first: as a spreadsheet counts; 0 where none does. */
export const headingRowIn = (kind: TableKind, rows: readonly (readonly Cell[])[], known: Known): number => {
  let best = { row: 0, score: 0 };
  rows.slice(0, 15).forEach((cells, at) => {
    const matched = cells.filter(
      ({ text, is }) =>
        is === 'text' &&
        text !== '' &&
        matchOf(kind, { heading: text, sample: [] }, known, known.beside.slots, [exactly, besideSlot]).sure !== 'none',
    ).length;
    if (matched > best.score) best = { row: at + 1, score: matched };
  });
  if (best.row > 0) return best.row;
  const [first] = rows;
  // Nothing is known of it: a first row without a figure is taken for headings.
  return first !== undefined && first.length > 0 && first.every(({ is, text }) => is === 'text' && !/^[\d.,]+$/.test(text)) ? 1 : 0;
};

/** Whether a kind of column is one a table of this kind can have. */
export const usesOf = (kind: TableKind): readonly PlainUse[] => ['ignored', ...(Object.keys(words[kind]) as PlainUse[])];
