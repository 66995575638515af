import { describe, expect, it } from 'vitest';
import { answer, asId, type Conflict, compileAtlas, explain, type NameId, type Sheet } from '../../../reasoner/index.ts';
import { kindOfReason } from '../../../reasoner/why/order-of-reasons.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from '../reasoner/little-atlas.ts';

const little = compileAtlas(littleAtlas);
const against = (sheet: Sheet, name = 'service:ling-3-cartridge'): readonly Conflict[] =>
  explain(little, sheet, asId<NameId>(name)).conflicts?.found ?? [];
/** What each conflict is made of: entries by feature, demands and joints by id. */
const told = (sheet: Sheet, conflicts: readonly Conflict[]): string[] =>
  conflicts.map(({ members }) =>
    members
      .map((member) => {
        if (member.kind === 'observation') return sheet.observations.find(({ id }) => id === member.observation)?.feature;
        if (member.kind === 'joint') return member.joint;
        return member.kind === 'absent' ? `no ${member.slot}` : `the ${member.slot} asked for`;
      })
      .join(' + '),
  );

describe('the order of reasons', () => {
  it('[K1] what rests on an absence or the plate comes last, however few its members', () => {
    const bare = sheetOf([blades(8)], { absent: [asId('plate')] });
    expect(told(bare, against(bare))).toEqual([
      'wheel.blades + the wheel asked for',
      'wheel.blades + contour + the housing asked for',
      'wheel.blades + stub + the shaft asked for',
      'no plate',
    ]);
    const plated = sheetOf([blades(8), marked('plate.number', '4-40')]);
    expect(told(plated, against(plated)).at(-1)).toBe('plate.number + the plate asked for');
    expect(told(plated, against(plated))[0]).toBe('wheel.blades + the wheel asked for');
  });

  it('[K1] a demand on the plate is the plate, and an entry on a plate no listed one has is too', () => {
    const sheet = sheetOf([blades(8), chose('shaft.bearing', 'journal'), marked('plate.number', '9-99')]);
    expect(told(sheet, against(sheet)).at(-1)).toBe('plate.number');
    // What was seen of the part it is on may speak against the plate the name asks for, and that too rests on the plate.
    const asked: Conflict = {
      members: [
        { kind: 'observation', observation: blades(8).id },
        { kind: 'joint', joint: asId('stub') },
        { kind: 'rule', name: asId('service:ling-3-cartridge'), slot: asId('plate') },
      ],
      slots: [asId('wheel'), asId('plate')],
      minutes: 15,
      stage: null,
      sentence: '',
    };
    expect(kindOfReason({ atlas: little, sheet }, asked)).toBe('an absence or the plate');
  });

  it('[K1] the unit’s own quarrel comes after every reason the name gives, and before what is missing', () => {
    // A housing of one and a wheel of the other: they do not go together, whatever the unit is called.
    const sheet = sheetOf([measured('housing.bore', 50.6), blades(8)], { absent: [asId('plate')] });
    expect(told(sheet, against(sheet))).toEqual([
      'wheel.blades + the wheel asked for',
      'wheel.blades + contour + the housing asked for',
      'wheel.blades + stub + the shaft asked for',
      'housing.bore + wheel.blades + contour',
      'no plate',
    ]);
  });

  it('[K1] what meets only across a missing part is no quarrel of the unit with itself', () => {
    // Housing and shaft ask different wheels between them, and there is no wheel: the name asks for one, the unit does not.
    const sheet = sheetOf([measured('housing.bore', 50.6), chose('shaft.end', '6')], { absent: [asId('wheel')] });
    const conflicts = against(sheet);
    const across = 'housing.bore + shaft.end + contour + stub';
    expect(told(sheet, conflicts)).toContain(across);
    const own = answer(little, sheet);
    expect(own.kind === 'verdict' && own.unit.found).toEqual([]);
    const at = told(sheet, conflicts).indexOf(across);
    expect(kindOfReason({ atlas: little, sheet }, conflicts[at] as Conflict)).toBe('the parts');
    const whole = sheetOf(sheet.observations);
    expect(kindOfReason({ atlas: little, sheet: whole }, conflicts[at] as Conflict)).toBe('the unit’s own quarrel');
  });

  it('[K1] then fewest members, then least strip-down, then the earlier stage', () => {
    const sheet = sheetOf([blades(8), chose('shaft.end', '6'), measured('housing.bore', 40.6)]);
    const conflicts = against(sheet);
    const keys = conflicts.map(({ members, minutes }) => members.length * 1000 + minutes);
    expect(keys).toEqual([...keys].sort((a, b) => a - b));
    expect(told(sheet, conflicts).slice(0, 3)).toEqual([
      'housing.bore + the housing asked for',
      'wheel.blades + the wheel asked for',
      'shaft.end + the shaft asked for',
    ]);
    // A later stage that takes fewer minutes comes first.
    const quick = compileAtlas({
      ...littleAtlas,
      stages: littleAtlas.stages.map((stage) => (stage.id === 'stripped' ? { ...stage, minutes: 5, after: [asId('as-received')] } : stage)),
    });
    const minutes = explain(quick, sheet, asId<NameId>('service:ling-3-cartridge'))
      .conflicts?.found.slice(0, 3)
      .map((each) => each.minutes);
    expect(minutes).toEqual([0, 5, 15]);
    // A stage that takes no minutes tells two reasons apart that take as many.
    const free = compileAtlas({
      ...littleAtlas,
      stages: littleAtlas.stages.map((stage) => ({ ...stage, minutes: 0 })),
    });
    const stages = explain(free, sheet, asId<NameId>('service:ling-3-cartridge'))
      .conflicts?.found.slice(0, 3)
      .map(({ stage }) => stage);
    expect(stages).toEqual(['as-received', 'housing-off', 'stripped']);
  });
});
