import { expect, test } from 'vitest';
import { compileAtlas, type Feature, type Observation, type Operation } from '../../../reasoner/index.ts';
import { agreementWith } from '../../../reasoner/unit/agreement.ts';
import { littleAtlas, measured } from './little-atlas.ts';
import { cut, ring } from './shop-operations.ts';

const agreement = (operations: readonly Operation[], observation: Observation, part = 'housing/cod') => {
  const atlas = compileAtlas({ ...littleAtlas, operations });
  const slot = atlas.slots.find(({ partNumber }) => partNumber.has(part as never));
  if (slot === undefined) throw new Error(part);
  const feature = atlas.features.get(observation.feature) as Feature;
  return agreementWith(slot, slot.partNumber.get(part as never) as number, feature, observation);
};

test('[O2] a part in hand is as it is made, as what could have been done to it left it, or neither', () => {
  // Bored 40.55 to 40.65, and worn to 40.75.
  const shop = [
    cut('open-bore', 'housing.bore', 'larger', 1),
    cut('open-bore-far', 'housing.bore', 'larger', 2),
    ring('ring-bore', 'housing.bore', 0.2),
  ];
  const bore = (size: number) => measured('housing.bore', size);
  expect(agreement(shop, bore(40.7)), 'as made, though it may have been opened').toEqual({ machined: [] });
  expect(agreement(shop, bore(41))).toEqual({ machined: ['open-bore', 'open-bore-far'] });
  expect(agreement(shop, bore(42))).toEqual({ machined: ['open-bore-far'] });
  expect(agreement(shop, bore(40.2))).toEqual({ machined: ['ring-bore'] });
  expect(agreement(shop, bore(43))).toBeNull();
  expect(agreement([], bore(41))).toBeNull();
});

test('[O2] [O3] what is not known of a part is not known after any work: it agrees as it is', () => {
  const { parts } = littleAtlas;
  const silent = { ...(parts[0] as (typeof parts)[number]), id: 'housing/silent' as never, facts: {} };
  const atlas = compileAtlas({
    ...littleAtlas,
    parts: [...parts, silent],
    operations: [cut('open-bore', 'housing.bore', 'larger', 1)],
  });
  const slot = atlas.slots[0] as (typeof atlas.slots)[number];
  const observation = measured('housing.bore', 47);
  expect(agreementWith(slot, slot.parts.length - 1, atlas.features.get(observation.feature) as Feature, observation)).toEqual({
    machined: [],
  });
});
