import type { Chapter, PartDraft } from '../../pack/draft.ts';
import { about, choice, count } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { copyOf, originalIn } from './copy.ts';
import { type Group, groupChapter, modelOf } from './group.ts';

const group: Group = {
  id: 'slipway',
  name: 'Slipway',
  from: 1999,
  patternOf: 'rowan',
  about:
    'Rowan IV in everything but the blades, eight and eight, twelve turbine blades without cutback, and a left-hand nut on a shaft that turns anticlockwise, which works loose.',
};

/** Copies of Rowan IV with two of its housings. */
export const makeSlipway = (tarnwickParts: readonly PartDraft[]): Chapter => {
  const original = originalIn(tarnwickParts);
  const shelf = new Shelf();
  const models = [16, 18].map((areaRatio) => {
    const model = modelOf(group, `IV-${areaRatio}`, `rowan-iv-${areaRatio}`);
    shelf.allow(
      model.id,
      'names',
      copyOf(original('tarnwick-rowan-iv-compressor-housing'), group, 'rowan-iv'),
      copyOf(original('tarnwick-rowan-iv-compressor-wheel'), group, 'rowan-iv', {
        'full-blades': count(8),
        'splitter-blades': count(8),
        nose: choice('hex'),
        'nut-hand': choice('left'),
      }),
      copyOf(original('tarnwick-rowan-iv-bearing-housing'), group, 'rowan-iv', { ribs: count(3) }),
      copyOf(original('tarnwick-rowan-shaft'), group, 'rowan', { 'thread-hand': choice('left') }),
      copyOf(original('tarnwick-rowan-iv-turbine-wheel'), group, 'rowan-iv', {
        blades: count(12),
        cutback: choice('none'),
        'cutback-angle': about(0, 1),
        weld: choice('friction'),
      }),
      copyOf(original(`tarnwick-rowan-iv-turbine-housing-${areaRatio}`), group, `rowan-iv-${areaRatio}`),
    );
    shelf.allow(
      model.id,
      'service',
      copyOf(original('tarnwick-rowan-iv-backplate'), group, 'rowan-iv'),
      copyOf(original('tarnwick-rowan-bearing-set'), group, 'rowan'),
      copyOf(original('tarnwick-rowan-heat-shield'), group, 'rowan'),
    );
    return model;
  });
  return groupChapter(group, models, shelf);
};
