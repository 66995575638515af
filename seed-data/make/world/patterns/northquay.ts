import type { Chapter, ModelDraft, PartDraft } from '../../pack/draft.ts';
import { about, between, blank, choice, count } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { bearingHousing, bearingSet, heatShield, shaft } from '../../parts/core.ts';
import type { CorePattern } from '../../parts/core-pattern.ts';
import { unnamedHead } from '../house.ts';
import { cartridgeCore, faceSize } from '../merrowby/core-patterns.ts';
import { exducerOf } from '../merrowby/running-sizes.ts';
import { copyOf, originalIn } from './copy.ts';
import { type Group, groupChapter, modelOf } from './group.ts';

const group: Group = {
  id: 'northquay',
  name: 'Northquay',
  from: 2004,
  patternOf: 'petrel',
  about:
    'Pattern units known only by the quay they turn up on: Petrel outside, but seven and seven blades, eleven turbine blades, friction weld, journals and no water.',
};

/** Petrel outside, journal inside: every face of the cartridge core, but two bushes, its own shaft and no water jacket. */
export const northquayCore: CorePattern = {
  ...cartridgeCore,
  kind: 'journal',
  water: false,
  bearing: { bore: 17.94, running: 10.13, length: 38.4 },
  sealBoss: 19.66,
  weld: { pattern: 'cone', spigot: 13.12 },
};

const unnamed = (slot: string, patternOf: string) =>
  unnamedHead(`northquay-petrel-${slot}`, `Northquay ${slot.replaceAll('-', ' ')} for the Petrel pattern`, patternOf);

const housing = bearingHousing(unnamed('bearing-housing', 'merrowby-cartridge-bearing-housing'), {
  core: northquayCore,
  oilFeed: 'm10x1',
  oilDrain: 'two-bolt',
  ribPattern: 'ring',
  ribs: 4,
  castName: blank,
  castMark: blank,
});
const journals = bearingSet(unnamed('bearing-set', 'merrowby-cartridge'), {
  core: northquayCore,
  bushes: 2,
  balls: 0,
  thrust: 'split-ring',
  needsWater: false,
  mark: blank,
});
const spindle = shaft(unnamed('shaft', 'merrowby-cartridge-shaft'), { core: northquayCore, steps: 4, mark: blank });
const shield = heatShield(unnamed('heat-shield', 'merrowby-cartridge-heat-shield'), {
  core: northquayCore,
  outside: 68,
  dish: 6.1,
  form: 'pressed',
  slots: 0,
  mark: blank,
});

/** Copies of Petrel 11, 13 and 17: seven and seven blades, eleven turbine blades hardly cut back, friction weld. */
export const makeNorthquay = (merrowbyParts: readonly PartDraft[]): Chapter => {
  const original = originalIn(merrowbyParts);
  const shelf = new Shelf();
  const models = (
    [
      [11, 2, 12],
      [13, 2, 14],
      [17, 3, 13],
    ] as const
  ).map(([size, frame, areaRatio]): ModelDraft => {
    const model = modelOf(group, `${size}`, `petrel-${size}-cartridge`);
    const subject = `petrel-${size}`;
    const face = faceSize(exducerOf(size));
    const head = copyOf(original(`merrowby-petrel-${frame}-turbine-wheel`), group, `petrel-frame-${frame}`, {
      blades: count(11),
      cutback: choice('half'),
      'cutback-angle': about(12, 2),
      weld: choice('friction'),
      'weld-pattern': choice(northquayCore.weld.pattern),
      'weld-recess': between(northquayCore.weld.spigot, 0, 0.02),
    });
    const wheel = copyOf(original(`merrowby-petrel-${size}-compressor-wheel`), group, subject, {
      'full-blades': count(7),
      'splitter-blades': count(7),
      look: choice('cast'),
      nose: choice('hex'),
      back: choice('full'),
    });
    const backplate = copyOf(original(`merrowby-cartridge-backplate-${face}`), group, `petrel-${face}`);
    const compressorHousing = copyOf(original(`merrowby-petrel-${size}-compressor-housing`), group, subject);
    const turbineHousing = copyOf(
      original(`merrowby-petrel-${frame}-turbine-housing-${areaRatio}`),
      group,
      `petrel-frame-${frame}-${areaRatio}`,
    );
    shelf.allow(model.id, 'names', compressorHousing, wheel, housing, spindle, head, turbineHousing);
    shelf.allow(model.id, 'service', backplate, journals, shield);
    return model;
  });
  return groupChapter(group, models, shelf);
};
