import type { Feature, FeatureId, Model, Part, SlotId } from '../../reasoner/index.ts';
import { fold, tight } from '../plain/fold.ts';
import { groupBy } from '../plain/group-by.ts';
import type { ColumnUse } from './column-use.ts';
import type { Known } from './known.ts';
import { markHeading, marksOf } from './marks.ts';
import { matchColumns } from './match-columns.ts';
import { everyRole, featureFor, partWord, type Said, sayOfModel, sayOfPart } from './say-entries.ts';
import { sayFact } from './say-fact.ts';

/** A table as it is written: its headings, its rows, and last the column that tells which cells were edited since. */
export interface TableOut {
  readonly title: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly Said[])[];
}

/** Parts as a table that can be edited and brought in again: a row a part, and a column for each feature they may have. */
export const partsOut = (parts: readonly Part[], known: Known): TableOut => {
  const slots = known.beside.slots.filter(({ id }) => parts.some(({ slot }) => slot === id));
  const features = known.beside.features.filter(
    ({ id, slot }) => slots.some((one) => one.id === slot) && (slots.length === 1 || parts.some(({ facts }) => facts[id] !== undefined)),
  );
  return tableOut(
    'Parts',
    [
      { heading: 'id', use: { is: 'id' } },
      { heading: 'name', use: { is: 'name' } },
      { heading: 'slot', use: { is: 'slot' } },
      { heading: 'maker', use: { is: 'maker' } },
      { heading: 'numbers', use: { is: 'numbers' } },
      { heading: 'pattern of', use: { is: 'pattern of' } },
      { heading: 'supersedes', use: { is: 'supersedes' } },
      { heading: 'source', use: { is: 'source' } },
      ...figureColumns(features, slots, known),
    ],
    parts,
    (part, use) => sayOfPart(part, use, known),
  );
};

/** Models as a table: a row a model, and a column for each slot with the parts that may sit there. */
export const modelsOut = (models: readonly Model[], known: Known): TableOut =>
  tableOut(
    'Models',
    [
      { heading: 'id', use: { is: 'id' } },
      { heading: 'model', use: { is: 'name' } },
      { heading: 'family', use: { is: 'family' } },
      { heading: 'generation', use: { is: 'generation' } },
      { heading: 'from', use: { is: 'from' } },
      { heading: 'to', use: { is: 'to' } },
      { heading: 'pattern of', use: { is: 'pattern of' } },
      { heading: 'open-ended', use: { is: 'open-ended' } },
      { heading: 'source', use: { is: 'source' } },
      ...known.beside.slots.map(({ id, name }): OutColumn => ({ heading: name, use: { is: 'fitted', slot: id, role: 'names' } })),
    ],
    models,
    (model, use) => sayOfModel(model, use, known, everyRole),
  );

/** Facts as a table: a row a fact, by part and feature. What the part is called is for reading only. */
export const factsOut = (parts: readonly Part[], known: Known): TableOut => {
  const rows = parts.flatMap((part) =>
    known.beside.features.flatMap((feature) => {
      const fact = feature.slot === part.slot ? part.facts[feature.id] : undefined;
      return fact === undefined ? [] : [{ part, feature, value: sayFact(feature, fact) }];
    }),
  );
  const columns = ['part', 'called', 'feature', 'value', 'unit'] as const;
  return tableOut(
    'Facts',
    columns.map((heading) => ({ heading, use: { is: heading === 'called' ? 'ignored' : heading } })),
    rows,
    ({ part, feature, value }, use, heading): Said => {
      if (heading === 'called') return part.name;
      switch (use.is) {
        case 'part':
          return partWord(part.id, known);
        case 'feature':
          return wordOf(feature, known);
        case 'value':
          return value;
        case 'unit':
          return feature.kind === 'measure' ? (feature.unit ?? '') : '';
        default:
          return '';
      }
    },
  );
};

/** The name of a feature, where no other of its slot is called so; else its id. */
const wordOf = (feature: Feature, known: Known): string => {
  const found = known.featureOf(feature.slot, feature.name);
  return found.length === 1 && found[0]?.id === feature.id ? feature.name : feature.id;
};

interface OutColumn {
  readonly heading: string;
  readonly use: ColumnUse;
}

const tableOut = <T>(
  title: string,
  columns: readonly OutColumn[],
  entries: readonly T[],
  say: (entry: T, use: ColumnUse, heading: string) => Said,
): TableOut => {
  const headings = columns.map(({ heading }) => heading);
  return {
    title,
    headings: [...headings, markHeading(headings)],
    rows: entries.map((entry) => {
      const cells = columns.map(({ use, heading }) => say(entry, use, heading));
      return [...cells, marksOf(cells.map(String))];
    }),
  };
};

/** A column for all features that are called alike, one of each slot; where the heading would be taken for something else, one for each with its slot’s name. */
const figureColumns = (
  features: readonly Feature[],
  slots: readonly { readonly id: SlotId; readonly name: string }[],
  known: Known,
): readonly OutColumn[] => {
  const column = (name: string, of: readonly Feature[]): OutColumn => ({
    heading: `${name}${unitOf(of)}`,
    use: { is: 'figure', features: of.map(({ id }) => id), part: 'size', unit: null, within: null },
  });
  const readsAs = ({ heading, use }: OutColumn): boolean => {
    const [match] = matchColumns('parts', [{ heading, sample: [] }], known, null);
    if (match?.use.is !== 'figure' || use.is !== 'figure' || match.use.part !== 'size') return false;
    const own: readonly FeatureId[] = match.use.features;
    return (
      use.features.every((id) => own.includes(id)) &&
      slots.every(({ id }) => featureFor(own, id, known) !== undefined || featureFor(use.features, id, known) === undefined)
    );
  };
  return [...groupBy(features, ({ name }) => tight(name)).values()].flatMap((of) => {
    const together = column((of[0] as Feature).name, of);
    if (new Set(of.map(({ slot }) => slot)).size === of.length && readsAs(together)) return [together];
    return of.map((feature) => {
      const apart = column(`${known.slotName(feature.slot)} ${feature.name}`, [feature]);
      return readsAs(apart) ? apart : column(feature.id, [feature]);
    });
  });
};

const unitOf = (features: readonly Feature[]): string => {
  const units = [...new Set(features.map(({ kind, unit }) => (kind === 'measure' ? unit : undefined)))];
  return units.length > 1 || units[0] === undefined ? '' : units[0] === 'deg' ? ' (°)' : ` (${units[0]})`;
};

/** The parts in which every word of a text is found: in their name, numbers, id, slot or maker. All for an empty text. */
export const partsFound = (text: string, slot: SlotId | null, known: Known): readonly Part[] => {
  const words = fold(text)
    .split(' ')
    .filter((word) => word !== '');
  return known.beside.parts.filter((part) => {
    if (slot !== null && part.slot !== slot) return false;
    if (words.length === 0) return true;
    const maker = known.beside.makers.find(({ id }) => id === part.maker)?.name ?? '';
    const all = [part.name, part.id, part.slot, maker, ...part.numbers].map(tight);
    return words.every((word) => all.some((one) => one.includes(word.replace(/ /g, ''))));
  });
};
