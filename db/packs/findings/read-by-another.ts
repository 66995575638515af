import type { Maker } from '../../../reasoner/index.ts';
import { groupBy } from '../../plain/group-by.ts';
import { warning } from '../warnings.ts';
import type { Finding, GroundModel } from './ground.ts';
import { fewNames } from './ground.ts';

/** A grammar that reads names another maker lists: claimed of its own maker, they would be taken for names. */
export const readByAnother: Finding = {
  about: 'read by another',
  rests: ['makers.json', 'models.json', 'families.json'],
  find: function* ({ asked, read, makers, models, family, maker, at }) {
    const { faultOfName } = asked;
    if (faultOfName === undefined) return;
    const index = new Map<string, number>(read.lists.files.makers.map(({ id }, n) => [id, n]));
    const byMaker = groupBy(models, (model) => family(model.family)?.maker ?? '');
    for (const reader of makers) {
      if (reader.grammar === null) continue;
      const mayRead = beginsLike(reader);
      const own = index.get(reader.id);
      for (const [other, theirs] of byMaker) {
        if (other === '' || other === reader.id) continue;
        // One of the two has to be the pack's; the rest was said of another.
        const asked = own === undefined ? theirs.filter((model) => model.index !== null) : theirs;
        const taken = asked.filter(({ name }) => mayRead(name) && faultOfName(reader, name) === null);
        const [first] = taken as [GroundModel?];
        if (first === undefined) continue;
        const place = own === undefined ? at.entry('models', [first.index as number, 'name']) : at.entry('makers', [own, 'grammar']);
        yield warning(
          place,
          `the grammar of ${reader.name} reads ${taken.length === 1 ? 'a name' : `${taken.length} names`} that ${maker(other)?.name ?? other} lists: ${fewNames(taken.map(({ name }) => name))}`,
          `Claimed of ${reader.name}, ${taken.length === 1 ? 'it' : 'each'} would pass for a name of that maker.`,
        );
      }
    }
  },
};

/** Whether a name can be one of a maker's at all, asked before its grammar is: names of a grammar that begins with a word have that word in them. */
const beginsLike = ({ grammar }: Maker): ((name: string) => boolean) => {
  const first = grammar?.tokens[0];
  if (first === undefined || first.optional || first.reads.kind !== 'word') return () => true;
  const words = first.reads.words.map((word) => word.toLowerCase());
  return (name) => {
    const small = name.toLowerCase();
    return words.some((word) => small.includes(word));
  };
};
