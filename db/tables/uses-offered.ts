import type { SlotId } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import { tight } from '../plain/fold.ts';
import { groupBy } from '../plain/group-by.ts';
import type { ColumnUse, FigurePart, PlainUse, TableKind } from './column-use.ts';
import type { Known } from './known.ts';
import { usesOf } from './match-columns.ts';

const plainLabels: Readonly<Record<TableKind, Readonly<Partial<Record<PlainUse, string>>>>> = {
  parts: {
    ignored: 'nothing: pass it over',
    id: 'the part’s id',
    name: 'the part’s name',
    slot: 'what kind of part it is',
    maker: 'the maker',
    numbers: 'part numbers',
    'pattern of': 'the part it is a pattern of',
    supersedes: 'the part it took the place of',
    source: 'where the part’s facts come from',
  },
  models: {
    ignored: 'nothing: pass it over',
    id: 'the model’s id',
    name: 'the model’s name',
    family: 'the family',
    generation: 'the generation',
    from: 'the first year it was built',
    to: 'the last year it was built',
    'pattern of': 'the model it is a pattern of',
    'open-ended': 'slots whose list is not whole',
    source: 'where it comes from',
  },
  facts: {
    ignored: 'nothing: pass it over',
    part: 'the part',
    slot: 'what kind of part it is',
    feature: 'the feature',
    value: 'what it is',
    lower: 'the lower deviation',
    upper: 'the upper deviation',
    code: 'the ISO 286 code',
    unit: 'the unit',
    source: 'where the fact comes from',
  },
};

const ofFigure: Readonly<Record<FigurePart, string>> = {
  size: '',
  lower: ', lower deviation',
  upper: ', upper deviation',
  least: ', least',
  greatest: ', greatest',
  code: ', ISO 286 code',
};

/** What a column is taken for, in words. */
export const sayUse = (use: ColumnUse, kind: TableKind, known: Known): string => {
  if (use.is === 'figure') {
    const features = use.features.flatMap((id) => known.feature.get(id) ?? []);
    const slots = features.map(({ slot }) => known.slotName(slot));
    const names = [...new Set(features.map(({ name }) => name))];
    const of = slots.length > 3 ? `${slots.length} kinds of part` : list(slots);
    return `${list(names, 'or')}${ofFigure[use.part]} — ${of}`;
  }
  if (use.is === 'fitted') {
    return `${known.slotName(use.slot)}${use.role === 'names' ? '' : `, ${use.role}`}: parts that may sit there`;
  }
  return plainLabels[kind][use.is] ?? (use.is === 'as brought out' ? 'what it was brought out with' : use.is);
};

/** All a column may be taken for, in the order they are offered: what the table itself is of, then features that several kinds of part have under one name, then each by itself. */
export const usesOffered = (
  kind: TableKind,
  slot: SlotId | null,
  known: Known,
): readonly { readonly use: ColumnUse; readonly label: string; readonly words: string }[] => {
  const uses: ColumnUse[] = usesOf(kind).map((is) => ({ is }));
  if (kind === 'models')
    for (const { id } of known.beside.slots)
      for (const role of ['names', 'option', 'service'] as const) uses.push({ is: 'fitted', slot: id, role });
  if (kind === 'parts') {
    const features = known.beside.features.filter((feature) => slot === null || feature.slot === slot);
    const figure = (of: typeof features, part: FigurePart): ColumnUse => ({
      is: 'figure',
      features: of.map(({ id }) => id),
      part,
      unit: null,
      within: null,
    });
    const together = [...groupBy(features, ({ name }) => tight(name)).values()].filter(
      (of) => of.length > 1 && new Set(of.map((each) => each.slot)).size === of.length,
    );
    const all = [...together, ...features.map((feature) => [feature])];
    for (const of of all) uses.push(figure(of, 'size'));
    for (const part of ['lower', 'upper', 'least', 'greatest', 'code'] as const)
      for (const of of all) if (of.every((feature) => feature.kind === 'measure')) uses.push(figure(of, part));
  }
  return uses.map((use) => ({ use, label: sayUse(use, kind, known), words: wordsOf(use, known) }));
};

const wordsOf = (use: ColumnUse, known: Known): string => {
  if (use.is === 'figure') return use.features.flatMap((id) => known.feature.get(id)?.alsoCalled ?? []).join(' ');
  return use.is === 'fitted' ? (known.beside.slots.find(({ id }) => id === use.slot)?.alsoCalled ?? []).join(' ') : '';
};
