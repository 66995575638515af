import { expect, it } from 'vitest';
import { compare, emptyTally } from './agreement.ts';
import { randomCase } from './random-atlas.ts';

it('[N4] seed 1218: of a core of two families whose own housings are one model’s, a housing of the other family is of another family', async () => {
  expect(await compare(randomCase(1218), emptyTally())).toEqual([]);
});
