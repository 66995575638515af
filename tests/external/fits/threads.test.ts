import { describe, expect, test } from 'vitest';
import { readThread, type Thread, threadsMeet } from '../../../reasoner/index.ts';
import { basicSizes } from './basic-sizes.ts';

const thread = (designation: string): Thread => {
  const read = readThread(designation);
  if (!read.ok) throw new Error(read.sentence);
  return read.value;
};

describe('ISO 724 basic sizes of metric threads: d2, D1, d3 in mm (C)', () => {
  test.each([
    ['M5', 4.48, 4.134, 4.019],
    ['M6', 5.35, 4.917, 4.773],
    ['M8', 7.188, 6.647, 6.466],
    ['M8x1', 7.35, 6.917, 6.773],
    ['M10x1', 9.35, 8.917, 8.773],
    ['M12x1.5', 11.026, 10.376, 10.16],
    ['M14x1.5', 13.026, 12.376, 12.16],
  ])('[F1] %s', (designation, pitchDiameter, minor, root) => {
    const sizes = basicSizes(thread(designation));
    expect(sizes.pitchDiameter).toBeCloseTo(pitchDiameter, 3);
    expect(sizes.minor).toBeCloseTo(minor, 3);
    // The standard cuts 12.1597 to 12.160 and 6.4664 to 6.466: equal to half a micrometre and a little.
    expect(Math.abs((sizes.root as number) - root)).toBeLessThan(0.0006);
  });
});

describe('ISO 228-1 parallel pipe threads: major, pitch and minor diameter in mm', () => {
  test.each([
    ['G1/8', 28, 9.728, 9.147, 8.566, 'C'],
    ['G1/4', 19, 13.157, 12.301, 11.445, 'C'],
    ['G3/8', 19, 16.662, 15.806, 14.95, 'C'],
    ['G1/2', 14, 20.955, 19.793, 18.631, 'C'],
    ['G1/16', 28, 7.723, 7.142, 6.561, 'M'],
    ['G5/8', 14, 22.911, 21.749, 20.587, 'M'],
    ['G3/4', 14, 26.441, 25.279, 24.117, 'M'],
    ['G7/8', 14, 30.201, 29.039, 27.877, 'M'],
    ['G1', 11, 33.249, 31.77, 30.291, 'M'],
    ['G1 1/4', 11, 41.91, 40.431, 38.952, 'M'],
    ['G1 1/2', 11, 47.803, 46.324, 44.845, 'M'],
    ['G2', 11, 59.614, 58.135, 56.656, 'M'],
  ])('[F1] %s: %d threads to the inch, %d, %d, %d (%s)', (designation, perInch, major, pitchDiameter, minor, _status) => {
    const found = thread(designation);
    expect(found.pitch * perInch).toBeCloseTo(25.4, 9);
    expect(found.major).toBe(major);
    expect(found.angle).toBe(55);
    expect(Math.abs(basicSizes(found).pitchDiameter - pitchDiameter)).toBeLessThan(0.0006);
    // The standard rounds the tooth height to a micrometre before it doubles it.
    expect(Math.abs((basicSizes(found).minor as number) - minor)).toBeLessThan(0.001);
  });
});

describe('NPT (ASME B1.20.1): threads per inch and outside diameter in inches (C); pitch diameter at the small end, inches (M)', () => {
  test.each([
    ['NPT 1/8', 27, 0.405, 0.36351],
    ['NPT 1/4', 18, 0.54, 0.47739],
    ['NPT 3/8', 18, 0.675, 0.61201],
    ['NPT 1/2', 14, 0.84, 0.75843],
  ])('[F1] %s', (designation, perInch, outside, e0) => {
    const found = thread(designation);
    expect(25.4 / found.pitch).toBeCloseTo(perInch, 9);
    expect(found.major / 25.4).toBeCloseTo(outside, 9);
    expect(basicSizes(found).pitchDiameter / 25.4).toBeCloseTo(e0, 5);
  });
});

describe('UNF basic sizes in mm: major, pitch diameter, minor of the nut (K)', () => {
  test.each([
    ['7/16-20 UNF', 11.113, 10.288, 9.738],
    ['9/16-18 UNF', 14.288, 13.371, 12.76],
    ['3/4-16 UNF', 19.05, 18.019, 17.331],
    ['7/8-14 UNF', 22.225, 21.047, 20.261],
  ])('[F1] %s', (designation, major, pitchDiameter, minor) => {
    const found = thread(designation);
    expect(Math.abs(found.major - major)).toBeLessThan(0.00051);
    expect(basicSizes(found).pitchDiameter).toBeCloseTo(pitchDiameter, 3);
    expect(basicSizes(found).minor).toBeCloseTo(minor, 3);
  });
});

describe('Near misses that must not mate (collected check values; common practice, no source)', () => {
  test.each([
    ['M10x1', 'G1/8', ['form', 'size', 'pitch']],
    ['G1/8', 'NPT 1/8', ['form', 'size', 'pitch']],
    // The same fourteen threads to the inch, 55° against 60°.
    ['G1/2', 'NPT 1/2', ['form', 'size']],
    // Left hand is marked LH (ISO 965-1, M).
    ['M8', 'M8-LH', ['hand']],
  ])('[F1] %s with %s', (one, other, differs) => {
    expect(threadsMeet(thread(one), thread(other))).toEqual({ differs, nearMiss: true });
    expect(threadsMeet(thread(other), thread(one))).toEqual({ differs, nearMiss: true });
  });
});
