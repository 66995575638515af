import { describe, expect, it } from 'vitest';
import { compileAtlas } from '../../../reasoner/index.ts';
import { judge } from '../../../reasoner/names/status.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { contradictionsIn } from '../../../reasoner/verdict/answer.ts';
import { entriesRulingOut } from '../../../reasoner/why/rests-on.ts';
import { randomCase } from '../../oracle/random-atlas.ts';

describe('one entry that everything rests on', () => {
  it('[O7] is each entry without which, the whole sheet judged anew, the name is no longer ruled out, and no other', () => {
    const count = { ruledOut: 0, resting: 0, machined: 0, plates: 0 };
    for (let seed = 20001; seed <= 20600; seed += 1) {
      const { atlas, sheet } = randomCase(seed);
      const compiled = compileAtlas(atlas);
      if (contradictionsIn(compiled, sheet)) continue;
      const unit = unitOf(compiled, sheet);
      const entries = unit.slots.flatMap(({ observations }) => observations);
      const without = entries.map((entry) =>
        unitOf(compiled, { ...sheet, observations: sheet.observations.filter((one) => one !== entry) }),
      );
      for (const rule of compiled.names) {
        if (judge(unit, rule).status !== 'ruled out') continue;
        const resting = entries.filter((_, i) => judge(without[i] as (typeof without)[number], rule).status !== 'ruled out');
        expect(
          entriesRulingOut(unit, rule).map(({ id }) => id),
          `seed ${seed}, ${rule.name.id}`,
        ).toEqual(resting.map(({ id }) => id));
        count.ruledOut += 1;
        count.resting += resting.length;
        count.machined += resting.filter(({ id }) =>
          unit.slots.some(({ readings }) =>
            readings.some(({ labels, tellsOfWork }) => tellsOfWork && labels.some((label) => isOf(unit.evidence[label], id))),
          ),
        ).length;
        count.plates += resting.filter(({ slot }) => atlas.slots.some((each) => each.id === slot && each.group === 'plate')).length;
      }
    }
    expect(count.ruledOut).toBeGreaterThan(800);
    for (const each of [count.resting, count.machined, count.plates]) expect(each).toBeGreaterThan(10);
  });
});

const isOf = (member: { readonly kind: string; readonly observation?: string } | undefined, id: string): boolean =>
  member?.kind === 'observation' && member.observation === id;
