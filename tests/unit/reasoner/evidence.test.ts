import { expect, test } from 'vitest';
import { asId, compileAtlas, type SlotId } from '../../../reasoner/index.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { blades, littleAtlas, marked, measured, saw, sheetOf } from './little-atlas.ts';

const little = compileAtlas(littleAtlas);

test('[O1] [O2] against a part speaks all that was seen of its slot and is not so, in the order of the sheet; nothing that is told', () => {
  const told = { ...blades(13), sure: { kind: 'told' } as const };
  const sheet = sheetOf([
    blades(12),
    told,
    measured('wheel.tip', 60),
    marked('wheel.cast-mark', 'NOBODY'),
    saw('wheel.blades', { kind: 'count', from: 12, to: 14 }),
  ]);
  const { evidence, slots } = unitOf(little, sheet);
  expect(slots.flatMap(({ groups }) => groups.filter(({ violates }) => violates.length > 0)).map(({ violates }) => violates)).toEqual([
    [0, 1, 2, 3],
    [0, 1, 2, 3],
  ]);
  expect(evidence).toEqual([0, 2, 3, 4].map((at) => ({ kind: 'observation', observation: sheet.observations[at]?.id })));
});

test('[C1] against every part of a slot that is missing speaks that it is, and nothing else', () => {
  const absent = ['plate', 'wheel', 'housing'].map((slot) => asId<SlotId>(slot));
  const { evidence, slots } = unitOf(little, sheetOf([saw('shaft.welded-patch', { kind: 'presence', present: true })], { absent }));
  const against = slots.flatMap(({ of, groups }) =>
    groups.flatMap(({ violates }) => violates.map((label) => [of.data.id, evidence[label]])),
  );
  expect(new Set(against.map((each) => JSON.stringify(each)))).toEqual(
    new Set(['housing', 'wheel', 'plate'].map((slot) => JSON.stringify([slot, { kind: 'absent', slot }]))),
  );
});
