import { describe, expect, test } from 'vitest';
import { expansionOf, growthOf, materials, warmClearance } from '../../../reasoner/index.ts';

describe('Thermal expansion: Callister, table B.6 (C); the worked figures are computed in the check values (K)', () => {
  test.each([
    ['aluminium 2024', 22.9],
    ['aluminium 6061', 23.6],
    ['aluminium 7075', 23.4],
    ['aluminium 356.0', 21.5],
    ['steel 1040', 11.3],
    ['steel 4140', 12.3],
    ['grey iron', 11.4],
    ['stainless 304', 17.2],
    ['bearing bronze C93200', 18],
    ['nickel alloy 625', 12.8],
    ['titanium Ti-6Al-4V', 8.6],
  ] as const)('[F2] %s: %d millionths a kelvin', (name, millionths) => {
    expect(materials[name].expansion * 1e6).toBeCloseTo(millionths, 9);
    expect(materials[name].status).toBe('C');
  });

  test('[F2] a 6 mm 2024 bore on a 4140 shaft, 130 K warmer: the fit loosens by 8.268 µm', () => {
    const warm = warmClearance(
      { least: 0, greatest: 0.01 },
      1,
      { diameter: 6, expansion: materials['aluminium 2024'].expansion, rise: 130 },
      { diameter: 6, expansion: materials['steel 4140'].expansion, rise: 130 },
    );
    expect(warm.thermal * 1000).toBeCloseTo(8.268, 6);
    expect(warm.cold).toEqual({ least: 0, greatest: 0.01 });
    expect(warm.warm.greatest).toBeCloseTo(0.018268, 9);
  });

  test('[F2] a 2024 wheel of radius 30 at +120 K in a 356 housing at +80 K: a cold radial gap of 0.250 becomes 0.21916 mm', () => {
    // The check value takes 30 mm for the housing as well.
    const warm = warmClearance(
      { least: 0.25, greatest: 0.25 },
      2,
      { diameter: 60, expansion: materials['aluminium 356.0'].expansion, rise: 80 },
      { diameter: 60, expansion: materials['aluminium 2024'].expansion, rise: 120 },
    );
    expect(warm.warm.least).toBeCloseTo(0.21916, 6);
    expect(warm.growth).toBeNull();
    expect(warm.assumptions).toContain('The wheel’s growth at speed is left out, since no speed is known.');
  });

  test('[F2] a part neither warmed nor turning does not grow', () => {
    expect(expansionOf({ diameter: 60, expansion: 2e-5, rise: 0 })).toBe(0);
  });
});

describe('Growth at speed (Timoshenko & Goodier, rotating discs; formula from memory, M), held against two independent limits', () => {
  const wheel = { speed: 150_000, diameter: 60, bore: 6, density: 2770, young: 73, poisson: 0.33 };

  test('[F2] as the bore nears the rim, a disc becomes a thin ring: growth of the diameter v²ρD/E', () => {
    const rim = (Math.PI * wheel.diameter * wheel.speed) / 60_000;
    const ring = (2770 * rim ** 2 * wheel.diameter) / 73e9;
    expect(growthOf({ ...wheel, bore: wheel.diameter }) / ring).toBeCloseTo(1, 9);
  });

  test('[F2] a solid disc grows by the strain of its rim, where the radial stress is nought and the hoop stress ρω²R²(1 − ν)/4', () => {
    const omega = (2 * Math.PI * wheel.speed) / 60;
    const hoop = ((2770 * omega ** 2 * 0.03 ** 2) / 4) * (1 - 0.33);
    expect(growthOf({ ...wheel, bore: 0 })).toBeCloseTo((hoop / 73e9) * 60, 9);
  });

  test('[F2] it is taken from the clearance and said to be an estimate', () => {
    const still = { diameter: 60, expansion: 2.29e-5, rise: 0 };
    const warm = warmClearance({ least: 0.25, greatest: 0.3 }, 2, still, still, wheel);
    expect(warm.warm.least).toBeCloseTo(0.25 - growthOf(wheel) / 2, 12);
    expect(warm.assumptions.join(' ')).toMatch(/estimate/);
  });
});
