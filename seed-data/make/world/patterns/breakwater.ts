import type { Chapter, PartDraft } from '../../pack/draft.ts';
import { about, choice } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { copyOf, originalIn } from './copy.ts';
import { type Group, groupChapter, modelOf } from './group.ts';

const group: Group = {
  id: 'breakwater',
  name: 'Breakwater',
  from: 2019,
  patternOf: 'skua',
  about:
    'Careful copies of the second Skuas, water jacket, cartridge and blade counts included. Only cutback and weld give the turbine wheel away.',
};

/** Copies of Skua 15 and 19. The turbine wheel differs from the original in its cutback and its weld, and in nothing else. */
export const makeBreakwater = (merrowbyParts: readonly PartDraft[]): Chapter => {
  const original = originalIn(merrowbyParts);
  const shelf = new Shelf();
  const models = (
    [
      [15, 1, 14],
      [19, 2, 14],
    ] as const
  ).map(([size, frame, areaRatio]) => {
    const model = modelOf(group, `${size}`, `skua-${size}-cartridge`);
    const subject = `skua-${size}`;
    const head = original(`merrowby-skua-2-${frame}-turbine-wheel`);
    const wheel = copyOf(head, group, `skua-2-${frame}`, {
      cutback: choice('half'),
      'cutback-angle': about(15, 1.5),
      weld: choice('friction'),
    });
    // The size mark is copied with everything else; it is no maker's name.
    const marked: PartDraft = {
      ...wheel,
      facts: { ...wheel.facts, 'turbine-wheel-mark': head.facts['turbine-wheel-mark'] ?? { kind: 'not known' } },
    };
    shelf.allow(
      model.id,
      'names',
      copyOf(original(`merrowby-skua-${size}-compressor-housing`), group, subject),
      copyOf(original(`merrowby-skua-${size}-compressor-wheel`), group, subject),
      copyOf(original('merrowby-skua-2-bearing-housing'), group, 'skua-2'),
      copyOf(original('merrowby-skua-2-shaft'), group, 'skua-2'),
      marked,
      copyOf(original(`merrowby-skua-2-${frame}-turbine-housing-${areaRatio}`), group, `skua-2-${frame}-${areaRatio}`),
      copyOf(original('merrowby-cartridge'), group, 'skua-2'),
    );
    shelf.allow(
      model.id,
      'service',
      copyOf(original('merrowby-cartridge-backplate-large'), group, 'skua-2'),
      copyOf(original('merrowby-skua-2-heat-shield'), group, 'skua-2'),
    );
    return model;
  });
  return groupChapter(group, models, shelf);
};
