import { expect, test } from 'vitest';
import { startingUncertainty } from '../../../renderer/values/readSeen.ts';
import { demoPack } from '../../unit/seed/demo-atlas.ts';

// JCGM 100:2008 (GUM), 4.3.7, first example: an error of a handbook value that "should not exceed" 0.40·10⁻⁶ is a rectangular
// distribution of half-width a = 0.40·10⁻⁶, u² = a²/3 = 53.3·10⁻¹⁵, u = 0.23·10⁻⁶. Status M (from memory), V (recomputed).
test('[O2] half-width over √3: 0.40 gives 0.23, as in JCGM 100:2008, 4.3.7', () => {
  expect(0.4 ** 2 / 3).toBeCloseTo(0.0533, 4);
  expect(startingUncertainty(0.4)).toBe(0.23);
});

test('[O2] every instrument of the demo shop states the uncertainty its own basis gives', () => {
  expect(demoPack.instruments.length).toBeGreaterThan(8);
  for (const { name, u, basis, resolution } of demoPack.instruments) {
    const half = Number(/, ([\d.]+) ?(?:mm|°)/.exec(basis)?.[1]);
    expect(u, name).toBe(Number((half / Math.sqrt(3)).toPrecision(2)));
    expect(half, name).toBeGreaterThanOrEqual(resolution);
    expect(basis).toContain('4.3.7');
  }
});

test('[A1] every instrument a measure of the demo atlas names is on the wall, in its unit and as fine as the feature says', () => {
  for (const feature of demoPack.features) {
    if (feature.kind !== 'measure') continue;
    const instrument = demoPack.instruments.find(({ name }) => name === feature.instrument);
    expect([instrument?.unit, instrument?.resolution], feature.id).toEqual([feature.unit, feature.resolution]);
  }
});
