import { describe, expect, test } from 'vitest';
import { type Becomes, readListing, slipOf } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

const findOf = (text: string, piece: RegExp) => readListing(demo, text).finds.find((find) => piece.test(find.text));

describe('[O7] figures of an offer that no such part has are refused, with the likely slip', () => {
  test.each<[string, RegExp, string, string]>([
    [
      'Compressor wheel exducer diameter 5720 mm.',
      /5720/,
      'compressor-wheel-exducer',
      'An exducer diameter of 5720 mm lies outside what is usual, 20 to 260 mm. It would be 57.2 mm, if the decimal point slipped.',
    ],
    [
      'Turbine wheel, blade count 111.',
      /111/,
      'turbine-wheel-blades',
      'A count of 111 blades lies outside what is usual, 5 to 24. It would be 11 blades, if a figure was written twice.',
    ],
    [
      'Compressor wheel exducer diameter 0 mm.',
      /^0 mm$/,
      'compressor-wheel-exducer',
      'An exducer diameter of 0 mm cannot be: a length is greater than zero.',
    ],
  ])('[O7] %s', (text, piece, feature, sentence) => {
    const find = findOf(text, piece);
    expect(find).toMatchObject({ settled: false, becomes: [{ kind: 'not taken', feature, sentence }] });
    expect(find?.becomes).toHaveLength(1);
  });

  test('[O7] what is usual is taken as it was', () => {
    const find = findOf('Compressor wheel exducer diameter 57.2 mm.', /57/);
    expect(find?.settled).toBe(true);
    expect(find?.becomes[0]).toMatchObject({ kind: 'told', feature: 'compressor-wheel-exducer', value: { kind: 'measure', value: 57.2 } });
  });

  test('[O7] of what a figure could be of, those are left out that have no such size', () => {
    for (const size of ['57.2 mm', '12 mm', '5 mm', '170 mm', '2 1/4 in', '11']) {
      for (const text of [
        `Wheel inducer ${size}, exducer ${size}, bore ${size}.`,
        `Housing inlet diameter ${size}. Contour ${size}.`,
        `A/R ${size}`,
      ]) {
        for (const becomes of readListing(demo, text).finds.flatMap((find): readonly Becomes[] => find.becomes)) {
          if (becomes.kind !== 'told') continue;
          const feature = demo.features.get(becomes.feature);
          if (feature !== undefined) expect(slipOf(feature, becomes.value).kind, `${text}: ${feature.id}`).toBe('plausible');
        }
      }
    }
  });
});
