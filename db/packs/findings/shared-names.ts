import { groupBy } from '../../plain/group-by.ts';
import { warning } from '../warnings.ts';
import type { Finding, GroundModel } from './ground.ts';
import { fewNames } from './ground.ts';

/**
 * Models under one name, of one maker or of several. Two of a maker with a grammar are a fault already (A4), and this is then not asked; what is left is judged for each of them, and
 * nobody is told which is meant. Letters are compared without regard to case, and runs of space as one.
 */
export const sharedNames: Finding = {
  about: 'shared name',
  rests: ['models.json', 'families.json'],
  find: function* ({ models, family, at }) {
    const makerOf = (model: GroundModel) => family(model.family)?.maker ?? null;
    for (const alike of groupBy(models, ({ name }) => name.trim().replace(/\s+/g, ' ').toLowerCase()).values()) {
      const [own] = alike.filter(({ index }) => index !== null);
      const others = alike.filter((model) => model !== own);
      if (own === undefined || others.length === 0) continue;
      const makers = new Set(alike.map(makerOf));
      const whose = makers.size === 1 ? 'of one maker' : `of ${makers.size} makers`;
      yield warning(
        at.entry('models', [own.index as number, 'name']),
        `the name ${JSON.stringify(own.name)} is that of ${alike.length} models ${whose}: ${fewNames(alike.map(({ id }) => id))}`,
        'A unit offered under it is judged for each of them, and nothing it says tells which is meant.',
      );
    }
  },
};
