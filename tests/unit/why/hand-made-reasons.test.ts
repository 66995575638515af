import { describe, expect, test } from 'vitest';
import { asId, type Conflict, compileAtlas, type Member, type StageId } from '../../../reasoner/index.ts';
import { inOrderOfK1 } from '../../../reasoner/why/order-of-reasons.ts';
import { stagesFor, stripDownMinutes } from '../../../reasoner/why/strip-down.ts';
import { blades, chose, littleAtlas, marked, sheetOf } from '../reasoner/little-atlas.ts';

const little = compileAtlas(littleAtlas);
const [wheel, shaft, number] = [blades(8), chose('shaft.end', '7'), marked('plate.number', '5-50')];
const found = { atlas: little, sheet: sheetOf([wheel, shaft, number]) };
const entry = (of: { readonly id: string }): Member => ({ kind: 'observation', observation: asId(of.id) });
const joint: Member = { kind: 'joint', joint: asId('stub') };
const rule = (slot: string): Member => ({ kind: 'rule', name: asId('service:cod-1'), slot: asId(slot) });
const conflict = (members: readonly Member[], minutes: number, stage: string | null, ...slots: string[]): Conflict => ({
  members,
  slots: slots.map((slot) => asId<Conflict['slots'][number]>(slot)),
  minutes,
  stage: stage === null ? null : asId<StageId>(stage),
  sentence: '',
});
/** Whichever way they were found. */
const order = (...sorted: Conflict[]) => {
  for (let turn = 0; turn < sorted.length; turn += 1) {
    const turned = [...sorted.slice(turn), ...sorted.slice(0, turn)];
    expect(inOrderOfK1(found, turned)).toEqual(sorted);
    expect(inOrderOfK1(found, turned.reverse())).toEqual(sorted);
  }
};

describe('the order of reasons (K1)', () => {
  test('[K1] of a name: by the parts, by the unit’s own quarrel, by the plate; then fewest members, least strip-down, the earlier stage', () => {
    order(
      conflict([entry(wheel), rule('wheel')], 15, 'housing-off', 'wheel'),
      conflict([entry(shaft), rule('shaft')], 55, 'stripped', 'shaft'),
      conflict([entry(wheel), joint, rule('shaft')], 15, 'housing-off', 'wheel', 'shaft'),
      conflict([entry(wheel), entry(shaft), joint], 55, 'stripped', 'wheel', 'shaft'),
      conflict([rule('plate')], 0, null, 'plate'),
      conflict([entry(number), rule('wheel')], 0, 'as-received', 'plate'),
    );
  });

  test('[K1] what takes nothing to see, not even to look at the unit, comes before what is seen as received', () => {
    order(conflict([joint, rule('wheel')], 0, null, 'wheel'), conflict([entry(wheel), rule('wheel')], 0, 'as-received', 'wheel'));
  });

  test('[K1] of the unit itself: what rests on the plate or on an absence last, however little it takes', () => {
    order(
      conflict([entry(wheel), entry(shaft), joint], 55, 'stripped', 'wheel', 'shaft'),
      conflict([entry(number)], 0, 'as-received', 'plate'),
      conflict([entry(wheel), { kind: 'absent', slot: asId('shaft') }], 15, 'housing-off', 'wheel', 'shaft'),
    );
  });

  test('[K1] what is alike in all of it is told apart by its members, so that it does not matter what was found first', () => {
    order(
      conflict([entry(shaft), rule('shaft')], 15, 'housing-off', 'shaft'),
      conflict([entry(shaft), rule('wheel')], 15, 'housing-off', 'wheel'),
      conflict([entry(wheel), rule('wheel')], 15, 'housing-off', 'wheel'),
    );
  });
});

describe('strip-down (K1, S1)', () => {
  test('[S1] every stage needed once, with what it needs before it', () => {
    const minutes = (...stages: string[]) =>
      stripDownMinutes(
        little,
        stages.map((stage) => asId<StageId>(stage)),
      );
    expect([minutes(), minutes('as-received'), minutes('housing-off'), minutes('stripped')]).toEqual([0, 0, 15, 55]);
    expect(minutes('stripped', 'housing-off', 'stripped')).toBe(55);
    expect([...stagesFor(little, [asId<StageId>('stripped')])].sort()).toEqual(['as-received', 'housing-off', 'stripped']);
  });
});
