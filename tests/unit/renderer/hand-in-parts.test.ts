import { expect, test } from 'vitest';
import { limits } from '../../../reasoner/plain/limits.ts';
import { partsOf } from '../../../renderer/bridge/handInParts.ts';

const { partBytes } = limits;
/** Bytes that tell where they stood: each is its place in the file, of the part it should be in. */
const fileOf = (size: number): Blob => new Blob([Uint8Array.from({ length: size }, (_, at) => Math.floor(at / partBytes))]);

test.each([
  [0, [0]],
  [1, [1]],
  [partBytes - 1, [partBytes - 1]],
  [partBytes, [partBytes]],
  [partBytes + 1, [partBytes, 1]],
  [2 * partBytes, [partBytes, partBytes]],
])('[R6] a file of %i bytes is handed in whole, in parts one call may carry', async (size, sizes) => {
  const parts = partsOf(fileOf(size));
  expect(parts.map((part) => part.size)).toEqual(sizes);
  for (const [at, part] of parts.entries())
    expect([...new Set(new Uint8Array(await part.arrayBuffer()))]).toEqual(part.size === 0 ? [] : [at]);
});
