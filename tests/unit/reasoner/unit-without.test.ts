import { describe, expect, test } from 'vitest';
import { asId, type CompiledAtlas, compileAtlas, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { isExcluded, type Unit, unitOf } from '../../../reasoner/unit/unit.ts';
import { unitWithout } from '../../../reasoner/unit/unit-without.ts';
import { number, quay, tradeName } from '../plate/quay-atlas.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from './little-atlas.ts';
import { cut } from './shop-operations.ts';

const little = compileAtlas(littleAtlas);
const shop = compileAtlas({ ...littleAtlas, operations: [cut('open-bore', 'housing.bore', 'larger', 1)] });

/** What is asked of such a unit: which parts agree, what is doubtful and why, and whose the plate may be. */
const asked = ({ slots, selfConflicts }: Unit) => ({
  agreeing: slots.map(({ of, groups, groupOf }) =>
    of.parts.filter((_, part) => !isExcluded(groups[groupOf[part] as number] as never)).map(({ id }) => id),
  ),
  listed: slots.map(({ agreeing, groups }) => agreeing.reduce((sum, group) => sum + (groups[group]?.parts.length ?? 0), 0)),
  doubtful: slots.map(({ doubtful }) => doubtful),
  observations: slots.map(({ observations }) => observations.map(({ id }) => id)),
  unlisted: slots.map(({ unlisted }) => unlisted),
  selfConflicts,
});

const sheets: readonly (readonly [string, CompiledAtlas, readonly Observation[], Partial<Sheet>])[] = [
  ['two wheels’ worth of entries', little, [blades(8), measured('wheel.tip', 50), chose('wheel.bore', '7')], {}],
  ['a wheel and a housing that do not go together', little, [marked('housing.cast-name', 'QUAY AIR'), blades(6)], {}],
  ['a slot that is missing besides', little, [blades(8), chose('shaft.end', '7')], { absent: [asId('plate')] }],
  [
    'two entries that say the same, and one that is only told',
    little,
    [blades(8), measured('wheel.tip', 40), { ...blades(6), sure: { kind: 'told' } }],
    {},
  ],
  ['a bore that says it was not opened', shop, [marked('housing.cast-name', 'QUAY AIR'), measured('housing.bore', 40.6), blades(6)], {}],
  ['a bore that was', shop, [measured('housing.bore', 41.5), blades(8), marked('housing.cast-name', 'QUAY AIR')], {}],
  ['a plate whose number is not listed', quay, [number('HB 4711'), tradeName('Quayside')], {}],
  ['such a plate without its trade name', quay, [number('HB 4711')], {}],
];

describe('a unit with one entry taken back (O7)', () => {
  test.each(sheets)('[O7] holds what it would without it: %s', (_, atlas, observations, rest) => {
    const unit = unitOf(atlas, sheetOf(observations, rest));
    for (const entry of observations.filter(({ sure }) => sure.kind !== 'told')) {
      const left = observations.filter((each) => each !== entry);
      expect(asked(unitWithout(unit, entry)), `${entry.id} taken back`).toEqual(asked(unitOf(atlas, sheetOf(left, rest))));
    }
  });
});
