import { describe, expect, test } from 'vitest';
import type { Observation, Seen } from '../../../reasoner/index.ts';
import { asId } from '../../../renderer/route/asId.ts';
import { confirmedAsBefore, saysTheSame } from '../../../renderer/sheet/slips.ts';

const entry = (feature: string, value: Seen, confirmed: boolean): Observation => ({
  id: asId('o1'),
  slot: asId('compressor-wheel'),
  feature: asId(feature),
  value,
  sure: { kind: 'seen' },
  ...(confirmed ? { confirmed } : {}),
});
const blades: Seen = { kind: 'count', from: 2, to: 2 };
const on = (...observations: readonly Observation[]) => ({ observations });

describe('[O7] what was confirmed once', () => {
  test('[O7] the same of the same feature is not asked about again', () => {
    expect(confirmedAsBefore(on(entry('blades', blades, true)), asId('blades'), { value: { kind: 'count', from: 2, to: 2 } })).toEqual({
      value: blades,
      confirmed: true,
    });
  });

  test('[O7] another value, another feature, or one nobody confirmed, is', () => {
    const another: Seen = { kind: 'count', from: 2, to: 3 };
    expect(confirmedAsBefore(on(entry('blades', blades, true)), asId('blades'), { value: another })).toEqual({ value: another });
    expect(confirmedAsBefore(on(entry('blades', blades, true)), asId('splitters'), { value: blades })).toEqual({ value: blades });
    expect(confirmedAsBefore(on(entry('blades', blades, false)), asId('blades'), { value: blades })).toEqual({ value: blades });
    expect(confirmedAsBefore(on(), asId('blades'), { value: blades })).toEqual({ value: blades });
  });

  test('[O7] a size comes back from another unit a little off, and is the same; a thousandth of a millimetre is another', () => {
    expect(saysTheSame({ kind: 'measure', value: 57.15 }, { kind: 'measure', value: 57.1500004 })).toBe(true);
    expect(saysTheSame({ kind: 'measure', value: 57.15 }, { kind: 'measure', value: 57.1511 })).toBe(false);
  });
});
