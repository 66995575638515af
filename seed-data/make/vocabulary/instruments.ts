import type { Instrument } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

const named = (
  id: string,
  name: string,
  resolution: number,
  more: { readonly unit?: 'mm' | 'deg'; readonly alsoCalled?: readonly string[]; readonly half?: number; readonly because?: string } = {},
): Plain<Instrument> => {
  const { unit = 'mm', alsoCalled, half = resolution, because = 'one step either way' } = more;
  const sign = unit === 'mm' ? ' mm' : '°';
  return {
    id,
    name,
    ...(alsoCalled === undefined ? {} : { alsoCalled }),
    unit,
    resolution,
    // A rectangular distribution of half-width a has the standard uncertainty a/√3 (JCGM 100:2008, 4.3.7).
    u: Number((half / Math.sqrt(3)).toPrecision(2)),
    basis: `${because}, ${half}${sign}, all of it equally likely: a/√3 (JCGM 100:2008, 4.3.7)`,
    source: 'figures-of-instruments',
  };
};

/** What a shop measures with. Features name those that suit them. */
export const instruments: readonly Plain<Instrument>[] = [
  named('caliper', 'caliper', 0.05, { alsoCalled: ['vernier caliper', 'sliding caliper'] }),
  named('caliper-through-the-inlet', 'caliper through the inlet', 0.1),
  named('outside-micrometer', 'outside micrometer', 0.005, { alsoCalled: ['micrometer'] }),
  named('bore-gauge', 'bore gauge', 0.005),
  named('depth-gauge', 'depth gauge', 0.02, { alsoCalled: ['depth micrometer'] }),
  named('ultrasonic-gauge', 'ultrasonic thickness gauge', 0.1),
  named('section-templates', 'section templates', 0.5),
  named('steel-rule', 'steel rule', 0.5, { alsoCalled: ['ruler'] }),
  named('eye', 'by eye', 1, { half: 3, because: 'a guess held against the hand' }),
  named('vernier-protractor', 'vernier protractor', 0.5, { unit: 'deg' }),
  named('eye-angle', 'by eye, angle', 5, { unit: 'deg', half: 10, because: 'a guess held against a square' }),
];
