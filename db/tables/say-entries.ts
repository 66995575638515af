import type { Feature, FeatureId, Model, Part, Role, SlotId } from '../../reasoner/index.ts';
import type { ColumnUse } from './column-use.ts';
import type { Known } from './known.ts';
import { sayFact } from './say-fact.ts';

/** What stands in a cell that is brought out: a number as one, for a spreadsheet to reckon with. */
export type Said = string | number;

/** No maker’s name stands on it, and that is known. */
export const noMaker = 'none';

/** What a column says of a part; reading it gives the same. */
export const sayOfPart = (part: Part, use: ColumnUse, known: Known): Said => {
  if (use.is === 'figure') {
    const feature = featureFor(use.features, part.slot, known);
    const fact = feature === undefined ? undefined : part.facts[feature.id];
    return feature === undefined || fact === undefined ? '' : sayFact(feature, fact);
  }
  switch (use.is) {
    case 'id':
      return part.id;
    case 'name':
      return part.name;
    case 'slot':
      return slotWord(part.slot, known);
    case 'maker':
      return part.maker === null
        ? noMaker
        : wordFor(part.maker, (text) => known.maker(text), known.beside.makers.find(({ id }) => id === part.maker)?.name);
    case 'numbers':
      return part.numbers.join('; ');
    case 'pattern of':
      return part.patternOf === undefined ? '' : partWord(part.patternOf, known);
    case 'supersedes':
      return part.supersedes === undefined ? '' : partWord(part.supersedes, known);
    case 'source':
      return wordFor(part.source, (text) => known.sourcesCalled(text), known.beside.sources.find(({ id }) => id === part.source)?.title);
    default:
      return '';
  }
};

/** What a column says of a model. */
export const sayOfModel = (model: Model, use: ColumnUse, known: Known, roles: readonly Role[] = everyRole): Said => {
  switch (use.is) {
    case 'fitted':
      return model.allowed
        .filter(({ slot, role }) => slot === use.slot && roles.includes(role))
        .map(({ part, role }) => `${partWord(part, known)}${role === use.role ? '' : ` (${role})`}`)
        .join('; ');
    case 'id':
      return model.id;
    case 'name':
      return model.name;
    case 'family':
      return wordFor(model.family, (text) => known.familiesCalled(text), known.beside.families.find(({ id }) => id === model.family)?.name);
    case 'generation':
      return model.generation === null
        ? ''
        : wordFor(
            model.generation,
            (text) => known.generationsCalled(text).filter(({ family }) => family === model.family),
            known.beside.generations.find(({ id }) => id === model.generation)?.name,
          );
    case 'from':
      return model.from ?? '';
    case 'to':
      return model.to ?? '';
    case 'pattern of':
      return model.patternOf === null
        ? ''
        : wordFor(model.patternOf, (text) => known.modelsCalled(text), known.model.get(model.patternOf)?.name);
    case 'open-ended':
      return (model.openEnded ?? []).map((slot) => slotWord(slot, known)).join('; ');
    case 'source':
      return wordFor(model.source, (text) => known.sourcesCalled(text), known.beside.sources.find(({ id }) => id === model.source)?.title);
    default:
      return '';
  }
};

export const everyRole: readonly Role[] = ['names', 'option', 'service'];

/** The feature of a column that a part of this slot has. */
export const featureFor = (features: readonly FeatureId[], slot: SlotId, known: Known): Feature | undefined =>
  features.map((id) => known.feature.get(id)).find((feature) => feature?.slot === slot);

export const slotWord = (slot: SlotId, known: Known): string => wordFor(slot, (text) => known.slot(text), known.slotName(slot));

/** The name, where nothing else is called so; else the id. */
const wordFor = (id: string, called: (text: string) => readonly { readonly id: string }[], name: string | undefined): string => {
  if (name === undefined || /[;\n]/.test(name)) return id;
  const found = called(name);
  return found.length === 1 && found[0]?.id === id ? name : id;
};

/** A part by the first of its numbers that is its own alone, else by its id. */
export const partWord = (id: Part['id'], known: Known): string => {
  const part = known.part.get(id);
  const number = part?.numbers.find((one) => {
    const found = known.partsCalled(one);
    return found.length === 1 && found[0]?.id === id && !/[;\n()]/.test(one);
  });
  return number ?? id;
};
