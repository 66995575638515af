import type { Atlas } from '../../../reasoner/index.ts';

/** So many names and numbers of each sort are typed, from all over the atlas. */
const ofEach = 40;

/** What is looked up, as it stands in the search field after each key, sort by sort. */
export const typedTexts = ({ makers, families, models, parts }: Atlas): Readonly<Record<string, readonly string[]>> => {
  const names = (all: readonly { readonly name: string }[]) => keyByKey(spread(all.map(({ name }) => name)));
  return {
    'makers and families': [...names(makers), ...names(families)],
    models: names(models),
    'names of parts': names(parts),
    'part numbers': keyByKey(spread(parts.flatMap(({ numbers }) => numbers))),
    'a later word of a name': keyByKey(spread([...families, ...models, ...parts].flatMap(({ name }) => name.split(/\s+/).slice(1)))),
  };
};

const spread = (texts: readonly string[]): readonly string[] => {
  const step = Math.max(1, Math.floor(texts.length / ofEach));
  return texts.filter((_, at) => at % step === 0).slice(0, ofEach);
};

const keyByKey = (texts: readonly string[]): readonly string[] =>
  texts.flatMap((text) => [...text].map((_, at) => [...text].slice(0, at + 1).join('')));
