import { describe, expect, test } from 'vitest';
import { type Atlas, asId, compileAtlas, type Observation, type Operation, type Part, type Sheet } from '../../../reasoner/index.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { machinedAtJoints, machinedByReading } from '../../../reasoner/verdict/machined.ts';
import { blades, choice, chose, count, feature, letters, littleAtlas, marked, measured, mm, sheetOf } from './little-atlas.ts';
import { cut, ring } from './shop-operations.ts';

const wheel = (name: string, blade: number, tip: number): Part => ({
  ...(littleAtlas.parts.find(({ id }) => id === asId('wheel/cod')) as Part),
  id: asId(`wheel/${name}`),
  name,
  facts: { 'wheel.blades': count(blade), 'wheel.tip': mm(tip), 'wheel.bore': choice('6') } as unknown as Part['facts'],
});
const openBore = cut('open-bore', 'housing.bore', 'larger', 1);
const openFar = cut('open-bore-far', 'housing.bore', 'larger', 4);
const ringBore = ring('ring-bore', 'housing.bore', 0.2);
const turnTip = cut('turn-tip', 'wheel.tip', 'smaller', 0.5);

/**
 * The Cod housing is bored to 40.6 mm for a wheel of 40; it must clear the tip by 0.1 to 1 mm on the radius. A wheel of nine blades has a tip of 41, which
 * asks for one of the two to be machined; one of ten has 42, which asks for both; one of eleven 43.
 */
const unit = (operations: readonly Operation[], observations: readonly Observation[], rest: Partial<Sheet> = {}) =>
  unitOf(
    compileAtlas({
      ...littleAtlas,
      operations,
      parts: [...littleAtlas.parts, wheel('nine', 9, 41), wheel('ten', 10, 42), wheel('eleven', 11, 43)],
    }),
    sheetOf(observations, rest),
  );
const cod = marked('housing.cast-name', 'QUAY AIR');
const at = (...asked: Parameters<typeof unit>) => machinedAtJoints(unit(...asked));
const by = (...asked: Parameters<typeof unit>) =>
  machinedByReading(unit(...asked)).flatMap((slot) =>
    slot.map(({ part, told }) => ({ part, told: told.map(({ observations, operations }) => [...observations, ...operations]) })),
  );
const contour = (slots: readonly string[], ...operations: readonly string[]) => [{ joint: 'contour', slots, operations }];

describe('what was machined, by the joint (J1)', () => {
  test('[J1] either of two, the one of them that can have been, or both of them', () => {
    expect(at([openBore, turnTip], [cod, blades(9)])).toEqual(contour(['wheel', 'housing'], 'turn-tip', 'open-bore'));
    expect(at([openBore], [cod, blades(9)])).toEqual(contour(['housing'], 'open-bore'));
    expect(at([turnTip], [cod, blades(9)])).toEqual(contour(['wheel'], 'turn-tip'));
    expect(at([openBore, turnTip], [cod, blades(10)])).toEqual(contour(['wheel', 'housing'], 'turn-tip', 'open-bore'));
  });

  test('[J1] of what can be done, what would have made it fit', () => {
    expect(at([openFar, openBore, ringBore], [cod, blades(9)])).toEqual(contour(['housing'], 'open-bore-far', 'open-bore'));
    expect(at([openFar, openBore, ringBore], [cod, blades(11)])).toEqual(contour(['housing'], 'open-bore-far'));
    // Turned down it still asks for more than the bore was opened by.
    expect(at([openBore, openFar, turnTip], [cod, blades(11)])).toEqual(contour(['housing'], 'open-bore-far'));
  });

  test('[J1] nothing where some two of the parts left go together as made', () => {
    expect(at([openBore, turnTip], [cod, blades(8)])).toEqual([]);
    expect(at([openBore, turnTip], [cod])).toEqual([]);
    expect(at([openBore, turnTip], [])).toEqual([]);
  });

  test('[J1] a size read as made says that it was the other; read as left, it is known and the other is said where it must be too', () => {
    expect(at([openBore, turnTip], [cod, blades(9), measured('housing.bore', 40.6)])).toEqual(contour(['wheel'], 'turn-tip'));
    expect(at([openBore, turnTip], [cod, blades(9), measured('wheel.tip', 41)])).toEqual(contour(['housing'], 'open-bore'));
    expect(at([openBore, turnTip], [cod, blades(9), measured('housing.bore', 41.4)])).toEqual([]);
    expect(at([openBore, turnTip], [cod, blades(10), measured('housing.bore', 41.4)])).toEqual(contour(['wheel'], 'turn-tip'));
    expect(at([openBore, turnTip], [cod, blades(10), measured('wheel.tip', 41.6)])).toEqual(contour(['housing'], 'open-bore'));
  });

  test('[J1] [J3] nothing of a slot in doubt, or one that holds nothing', () => {
    expect(at([openBore, turnTip], [cod, blades(6)])).toEqual([]);
    // The wheel does not go on the shaft, and may be another than it seems.
    expect(at([openBore, turnTip], [cod, blades(9), chose('shaft.end', '7')])).toEqual([]);
    expect(at([openBore, turnTip], [cod, blades(9)], { absent: [asId('wheel')] })).toEqual([]);
    expect(at([openBore, turnTip], [blades(9)], { absent: [asId('housing')] })).toEqual([]);
  });
});

test('[J1] two parts that no work makes go together do not count, though in one size they would fit as made', () => {
  const [tall, low] = [feature('wheel.height', 'measure'), feature('housing.depth', 'measure')];
  const of = (part: Part, facts: object): Part => ({ ...part, facts: { ...part.facts, ...facts } as Part['facts'] });
  const housing = (name: string, bore: number, depth: number): Part => ({
    ...of(wheel(name, 0, 0), {}),
    id: asId(`housing/${name}`),
    slot: asId('housing'),
    facts: { 'housing.cast-name': letters('X'), 'housing.bore': mm(bore), 'housing.depth': mm(depth) } as unknown as Part['facts'],
  });
  const atlas = compileAtlas({
    ...littleAtlas,
    operations: [openBore],
    features: [...littleAtlas.features, tall, low],
    joints: littleAtlas.joints.map((joint) =>
      joint.id === asId('contour')
        ? {
            ...joint,
            rules: [
              ...joint.rules,
              { kind: 'wheel to contour', pairs: [{ wheel: tall.id, housing: low.id, way: 'axial', min: 0.2, max: 1 }] },
            ],
          }
        : joint,
    ),
    parts: [
      ...littleAtlas.parts,
      of(wheel('short', 9, 41), { 'wheel.height': mm(10) }),
      of(wheel('tall', 9, 42), { 'wheel.height': mm(20) }),
      housing('shallow', 40.6, 10.5),
      housing('deep', 41.6, 20.5),
    ],
  });
  // The deep housing is wide enough for the short wheel, and far too deep for it.
  expect(machinedAtJoints(unitOf(atlas, sheetOf([marked('housing.cast-name', 'X'), blades(9)])))).toEqual(
    contour(['housing'], 'open-bore'),
  );
});

test('[J1] [O5] a plate whose number is not listed fits whatever it is on, and says nothing of work', () => {
  const [plates, housings] = [feature('plate.pitch', 'measure'), feature('housing.pitch', 'measure')];
  const joint = (id: string, a: string, b: string) => ({
    id,
    name: 'plate on housing',
    a,
    b,
    rules: [{ kind: 'running clearance', outer: housings.id, inner: plates.id, min: 0, max: 0.5 }],
    source: 'made-up',
  });
  const atlas = compileAtlas({
    ...littleAtlas,
    operations: [cut('file-pitch', 'housing.pitch', 'larger', 1)],
    features: [
      ...littleAtlas.features.map((each) => (each.id === asId('plate.number') ? { ...each, says: 'part number' as const } : each)),
      plates,
      housings,
    ],
    ports: [
      ...littleAtlas.ports,
      { id: 'plate-holes', slot: 'plate', name: 'holes' },
      { id: 'housing-holes', slot: 'housing', name: 'holes' },
    ],
    joints: [...littleAtlas.joints, joint('rivets', 'plate-holes', 'housing-holes'), joint('holes', 'housing-holes', 'plate-holes')],
    parts: littleAtlas.parts.map((part) =>
      part.slot === asId('plate') || part.slot === asId('housing')
        ? { ...part, facts: { ...part.facts, [`${part.slot}.pitch`]: mm(part.slot === asId('plate') ? 51 : 50.5) } }
        : part,
    ),
  } as unknown as Atlas);
  const on = (text: string) => unitOf(atlas, sheetOf([marked('plate.number', text)]));
  expect(machinedAtJoints(on('4-40')).map(({ joint }) => joint)).toEqual(['rivets', 'holes']);
  const unlisted = on('9-90');
  expect(unlisted.slots.find(({ of }) => of.data.group === 'plate')).toMatchObject({ live: [], doubtful: false });
  expect(machinedAtJoints(unlisted)).toEqual([]);
});

describe('what was machined, by what was read of it (O2)', () => {
  test('[O2] each part left that is not made so, with every reading that says it and what could have left it', () => {
    const [once, again] = [measured('housing.bore', 41.5), { ...measured('housing.bore', 41.52), id: asId<Observation['id']>('again') }];
    expect(by([openBore, openFar, ringBore], [once, again])).toEqual([
      { part: 'housing/cod', told: [[once.id, 'again', 'open-bore', 'open-bore-far']] },
      { part: 'housing/cod-wide', told: [[once.id, 'again', 'open-bore', 'open-bore-far']] },
      { part: 'housing/ling', told: [[once.id, 'again', 'ring-bore']] },
    ]);
    expect(by([openBore, openFar], [measured('housing.bore', 42)])).toEqual([
      { part: 'housing/cod', told: [[measured('housing.bore', 42).id, 'open-bore-far']] },
      { part: 'housing/cod-wide', told: [[measured('housing.bore', 42).id, 'open-bore', 'open-bore-far']] },
    ]);
  });

  test('[O2] in the order of the atlas, whatever each goes together with', () => {
    const late = { ...(littleAtlas.parts.find(({ id }) => id === asId('housing/cod')) as Part), id: asId<Part['id']>('housing/late') };
    const atlas = compileAtlas({ ...littleAtlas, operations: [openBore], parts: [...littleAtlas.parts, late] });
    const slots = machinedByReading(unitOf(atlas, sheetOf([measured('housing.bore', 41.5)])));
    expect(slots.flat().map(({ part }) => part)).toEqual(['housing/cod', 'housing/cod-wide', 'housing/late']);
  });

  test('[O2] not a part that may be as it is made, nor one of a slot in doubt', () => {
    const read = measured('housing.bore', 41);
    expect(by([openBore], [read])).toEqual([{ part: 'housing/cod', told: [[read.id, 'open-bore']] }]);
    expect(by([openBore], [cod, measured('housing.bore', 41.5), blades(6)])).toEqual([]);
  });
});
