import type { Chapter, PartDraft } from '../../pack/draft.ts';
import { about, choice, count } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { copyOf, originalIn } from './copy.ts';
import { type Group, groupChapter, modelOf } from './group.ts';

const group: Group = {
  id: 'ferrygate',
  name: 'Ferrygate',
  from: 1990,
  patternOf: 'gannet',
  about: 'Gannet as far as the flanges: twelve turbine blades without cutback, friction weld, and castings without letters.',
};

/** Copies of Gannet 9 and 12. */
export const makeFerrygate = (merrowbyParts: readonly PartDraft[]): Chapter => {
  const original = originalIn(merrowbyParts);
  const shelf = new Shelf();
  const models = ([9, 12] as const).map((size) => {
    const model = modelOf(group, `${size}`, `gannet-${size}`);
    const subject = `gannet-${size}`;
    shelf.allow(
      model.id,
      'names',
      copyOf(original(`merrowby-gannet-${size}-compressor-housing`), group, subject),
      copyOf(original(`merrowby-gannet-${size}-compressor-wheel`), group, subject, { nose: choice('hex') }),
      copyOf(original('merrowby-journal-bearing-housing'), group, 'gannet', { ribs: count(3), 'rib-pattern': choice('fan') }),
      // A shoulder more than the original, behind the flinger.
      copyOf(original('merrowby-journal-shaft'), group, 'gannet', { steps: count(5) }),
      copyOf(original('merrowby-gannet-1-turbine-wheel'), group, 'gannet-1', {
        blades: count(12),
        cutback: choice('none'),
        'cutback-angle': about(0, 1),
        weld: choice('friction'),
      }),
      ...[11, 13].map((areaRatio) => copyOf(original(`merrowby-gannet-1-turbine-housing-${areaRatio}`), group, `gannet-1-${areaRatio}`)),
    );
    shelf.allow(
      model.id,
      'service',
      copyOf(original('merrowby-journal-backplate-middle'), group, 'gannet'),
      copyOf(original('merrowby-journal-set'), group, 'gannet'),
      copyOf(original('merrowby-journal-heat-shield'), group, 'gannet'),
    );
    return model;
  });
  return groupChapter(group, models, shelf);
};
