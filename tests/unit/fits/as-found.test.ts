import { expect, test } from 'vitest';
import { meet, type Pairing } from '../../../reasoner/algebra/pairing.ts';
import { goTogether } from '../../../reasoner/compile/compiled.ts';
import { fitOf, type Part, planWork } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

test('[J1] [F2] a joint of the compiled atlas fails exactly where the fit of the two parts, judged in full, will not', () => {
  let fails = 0;
  for (const compiled of demo.joints) {
    const { data: joint, a, b } = compiled;
    const [one, other] = [demo.slots[a], demo.slots[b]];
    if (one === undefined || other === undefined) throw new Error('a joint without its slots');
    for (let i = 0; i < one.parts.length; i += 3) {
      for (let k = i % 2; k < other.parts.length; k += 2) {
        const held = goTogether(demo, compiled, i, k);
        const fit = fitOf(demo, joint.id, (one.parts[i] as Part).id, (other.parts[k] as Part).id);
        if (held !== (fit.verdict !== 'will not fit')) expect([joint.id, one.parts[i]?.id, other.parts[k]?.id, held]).toBe(fit.verdict);
        if (!held) fails += 1;
      }
    }
  }
  expect(fails).toBeGreaterThan(1000);
});

test('[J1] two parts fail as found only where they will not fit as made and no work the planner finds makes them go', () => {
  const { slots, space } = demo.found();
  let [fails, worked] = [0, 0];
  for (const { data: joint, number, a, b } of demo.joints) {
    const [one, other] = [demo.slots[a], demo.slots[b]];
    if (one === undefined || other === undefined) throw new Error('a joint without its slots');
    const operations = (demo.data.operations ?? []).filter(({ slot }) => slot === one.data.id || slot === other.data.id);
    for (let i = 0; i < one.parts.length; i += 2) {
      for (let k = i % 3; k < other.parts.length; k += 3) {
        const [left, right] = [one.parts[i] as Part, other.parts[k] as Part];
        const meets = meet(space.pairings[number] as Pairing, slots[a]?.of[i] as number, slots[b]?.of[k] as number);
        const fit = planWork(joint, { a: one.data.id, b: other.data.id }, left, right, operations);
        const asMade = fit.fit.verdict !== 'will not fit';
        if (asMade || fit.plans.length > 0) {
          if (!meets) expect([joint.id, left.id, right.id]).toBe('going together');
          if (!asMade) worked += 1;
        } else if (!meets) fails += 1;
      }
    }
  }
  expect(fails).toBeGreaterThan(1000);
  expect(worked).toBeGreaterThan(20);
});
