import { expect, test } from 'vitest';
import { fitOf, type Part } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

test('[J1] [F2] a joint of the compiled atlas fails exactly where the fit of the two parts, judged in full, will not', () => {
  let fails = 0;
  for (const { joint, a, b, holds } of demo.joints) {
    const [one, other] = [demo.slots[a], demo.slots[b]];
    if (one === undefined || other === undefined) throw new Error('a joint without its slots');
    for (let i = 0; i < one.parts.length; i += 3) {
      for (let k = i % 2; k < other.parts.length; k += 2) {
        const held = holds[(one.matingOf[i] as number) * other.matingCount + (other.matingOf[k] as number)] === 1;
        const fit = fitOf(demo, joint.id, (one.parts[i] as Part).id, (other.parts[k] as Part).id);
        if (held !== (fit.verdict !== 'will not fit')) expect([joint.id, one.parts[i]?.id, other.parts[k]?.id, held]).toBe(fit.verdict);
        if (!held) fails += 1;
      }
    }
  }
  expect(fails).toBeGreaterThan(1000);
});
