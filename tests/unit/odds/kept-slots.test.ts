import { describe, expect, it } from 'vitest';
import { compileAtlas, type Observation, type OddsAnswer, oddsOf, type Sheet, startingAssumptions } from '../../../reasoner/index.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { slotsOf } from '../../../reasoner/odds/slots-of.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const found = demoPack.sheets.find(({ id }) => id === 's02-plate-moved') as Sheet;
const seen = found.observations.filter(({ sure }) => sure.kind !== 'told');
const last = seen.at(-1) as Observation;
const entering = (observations: readonly Observation[]): Sheet => ({ ...found, observations });
const plain = (answer: OddsAnswer) => (answer.kind === 'odds' ? { ...answer, checks: null } : answer);

describe('what the entries of a slot were found to say', () => {
  const slots = (sheet: Sheet, assumptions = startingAssumptions) => slotsOf(groundOf(demo), sheet, assumptions);

  it('[Q1] stands while the slot’s entries do, and no longer', () => {
    const before = slots(entering(seen));
    const same = slots(entering(structuredClone(seen)));
    for (const [at, slot] of before.entries()) expect(same[at]).toBe(slot);
    const number = demo.slotNumber.get(last.slot) as number;
    const others = [
      entering(seen.slice(0, -1)),
      entering([...seen.slice(0, -1), { ...last, id: 'another' as Observation['id'] }]),
      entering(seen.map((each) => (each === last ? { ...last, sure: { kind: 'told' } } : each))),
      { ...found, absent: [...found.absent, last.slot] },
    ];
    for (const other of others) {
      const now = slots(other);
      now.forEach((slot, at) => {
        if (at === number) expect(slot).not.toBe(before[at]);
        else expect(slot).toBe(before[at]);
      });
    }
    expect(slots(entering(seen), { ...startingAssumptions, slip: 0.2 })[number]).not.toBe(before[number]);
    expect(slots(entering(seen), { ...startingAssumptions, misfit: 0.2 })[number]).not.toBe(before[number]);
  });

  it('[Q1] whatever was asked before, the odds are those of a newly opened atlas', () => {
    const [first] = seen as [Observation];
    const renamed = seen.map((each, i): Observation => ({ ...each, id: `e${i}` as Observation['id'] }));
    const sheets = [
      entering(seen),
      entering(seen.slice(0, 3)),
      entering(renamed),
      entering([...seen, { ...first, id: 'twice' as Observation['id'] }]),
      entering(seen),
      { ...entering(seen), absent: [last.slot] },
      entering(seen.slice(0, 4)),
    ];
    for (const slip of [startingAssumptions.slip, 0.1])
      for (const sheet of sheets) {
        const assumptions = { ...startingAssumptions, slip };
        const [kept, fresh] = [oddsOf(demo, { ...sheet }, assumptions), oddsOf(compileAtlas(demo.data), { ...sheet }, assumptions)];
        expect(plain(kept)).toEqual(plain(fresh));
        const [drops, others] = [kept, fresh].map((each) => (each.kind === 'odds' ? each.checks : []));
        expect(drops?.map(({ feature, again }) => [feature, again])).toEqual(others?.map(({ feature, again }) => [feature, again]));
        // In what order sums are made may leave rounding behind.
        drops?.forEach(({ drop }, i) => {
          expect(drop).toBeCloseTo(others?.[i]?.drop as number, 10);
        });
      }
  });
});
