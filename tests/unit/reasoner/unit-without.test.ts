import { describe, expect, test } from 'vitest';
import { asId, type CompiledAtlas, compileAtlas, type Observation, type Part, type Sheet } from '../../../reasoner/index.ts';
import { isExcluded } from '../../../reasoner/unit/groups.ts';
import { type Unit, unitOf } from '../../../reasoner/unit/unit.ts';
import { unitWithout } from '../../../reasoner/unit/unit-without.ts';
import { number, quay, tradeName } from '../plate/quay-atlas.ts';
import { blades, chose, count, littleAtlas, marked, measured, mm, sheetOf } from './little-atlas.ts';
import { cut, ring } from './shop-operations.ts';

const little = compileAtlas(littleAtlas);
/** The shop opens bores and rings them; the wheel of nine blades is too large for the Cod housing unless its bore is opened. */
const shop = compileAtlas({
  ...littleAtlas,
  operations: [cut('open-bore', 'housing.bore', 'larger', 1), ring('ring-bore', 'housing.bore', 0.2)],
  parts: [
    ...littleAtlas.parts,
    {
      ...(littleAtlas.parts.find(({ id }) => id === asId('wheel/cod')) as Part),
      id: asId('wheel/nine'),
      facts: { 'wheel.blades': count(9), 'wheel.tip': mm(41) } as unknown as Part['facts'],
    },
  ],
});
const cod = marked('housing.cast-name', 'QUAY AIR');

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
  ['a bore that says it was not opened', shop, [cod, measured('housing.bore', 40.6), blades(6)], {}],
  ['a bore that was not opened for the wheel', shop, [cod, measured('housing.bore', 40.6), blades(9)], {}],
  [
    'the same, with something read of every slot',
    shop,
    [cod, measured('housing.bore', 40.6), blades(9), chose('shaft.end', '6'), marked('plate.number', '4-40')],
    {},
  ],
  [
    'two readings of a bore, one as made and one ringed',
    shop,
    [cod, measured('housing.bore', 40.5, 0.05), measured('housing.bore', 40.3, 0.05)],
    {},
  ],
  ['a bore that was', shop, [measured('housing.bore', 41.5), blades(8), cod], {}],
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
