import { describe, expect, test } from 'vitest';
import { interleaved } from './interleaved.ts';

describe('[H5] three windows of two programs over one file', () => {
  test.each([1, 2, 3])('[H5] of what they save at the same time, by seed %i, nothing is lost unseen', async (seed) => {
    const { saves, told, merged, decided, atOnce, lostUnseen } = await interleaved({ seed, saves: 200 });
    expect(lostUnseen).toEqual([]);
    expect(saves).toBeGreaterThanOrEqual(200);
    for (const many of [told, merged, decided, atOnce]) expect(many).toBeGreaterThan(5);
  });

  test('[H5] and what a writer that does not look would lose is seen to be lost', async () => {
    const { lostUnseen } = await interleaved({ seed: 1, saves: 60, protocol: 'blind' });
    expect(lostUnseen.length).toBeGreaterThan(0);
  });
});
