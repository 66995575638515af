import { describe, expect, test } from 'vitest';
import { chordOf, roomBetweenCircles } from '../../../reasoner/index.ts';

describe('Bolt circle chords: D·sin(π/n) (check values, K)', () => {
  test('[F1] 80 mm: four holes 56.5685 apart, six 40.000', () => {
    expect(chordOf(80, 4)).toBeCloseTo(56.5685, 4);
    expect(chordOf(80, 6)).toBeCloseTo(40, 9);
  });

  test('[F1] opposite holes are a diameter apart', () => {
    expect(chordOf(80, 6, 3)).toBeCloseTo(80, 9);
  });

  test('[F1] two circles clocked for most room, against trying every half-tenth of a degree', () => {
    const at = (diameter: number, holes: number, k: number, turn: number) => {
      const angle = (2 * Math.PI * k) / holes + turn;
      return [(diameter / 2) * Math.cos(angle), (diameter / 2) * Math.sin(angle)] as const;
    };
    for (const [d1, n, d2, m] of [
      [88, 4, 90, 6],
      [80, 3, 80, 5],
      [100, 8, 96, 8],
    ] as const) {
      let best = 0;
      for (let turn = 0; turn < 360; turn += 0.05) {
        let least = Number.POSITIVE_INFINITY;
        for (let i = 0; i < n; i += 1) {
          for (let k = 0; k < m; k += 1) {
            const [x1, y1] = at(d1, n, i, 0);
            const [x2, y2] = at(d2, m, k, (turn * Math.PI) / 180);
            least = Math.min(least, Math.hypot(x1 - x2, y1 - y2));
          }
        }
        best = Math.max(best, least);
      }
      expect(roomBetweenCircles({ diameter: d1, holes: n }, { diameter: d2, holes: m })).toBeCloseTo(best, 3);
    }
  });

  test('[F1] holes that are not whole, or counted past themselves, are refused', () => {
    expect(() => chordOf(80, 2.5)).toThrow(/whole holes/);
    expect(() => chordOf(80, 4, 4)).toThrow(/4 holes, 4 apart/);
  });
});
