import { expect, test } from 'vitest';
import { asId, type KeptCase, type SheetId } from '../../../reasoner/index.ts';
import { blades, littleAtlas, marked, sheetOf } from '../reasoner/little-atlas.ts';
import { growthOf, mostGrowth, workOf } from './work-of.ts';

const work = await workOf(() => import('../../../reasoner/index.ts'));

test('[P7] [R6] twice the cases that would be told otherwise take at most 2.3 times the work', () => {
  const of = (many: number) =>
    work(({ compileAtlas, judgeCase, retoldAll }) => {
      const atlas = compileAtlas(littleAtlas);
      const items = Array.from({ length: many }, (_, n): KeptCase => {
        const sheet = sheetOf([blades(5 + (n % 3)), marked('housing.cast-name', n % 2 === 0 ? 'QUAYSIDE' : null)]);
        const said = judgeCase(atlas, sheet);
        return {
          sheet: asId<SheetId>(`s${n}`),
          number: `2026-${n}`,
          title: '',
          entry: 1,
          savedAt: `2026-03-04T12:00:00.${String(n).padStart(3, '0')}Z`,
          who: '',
          kept: { sheet, verdict: said.kind === 'verdict' ? { ...said, honest: [] } : said },
        };
      });
      const run = retoldAll(atlas, items, () => false);
      let step = run.next();
      while (!step.done) step = run.next();
      expect(step.value.cases).toHaveLength(many);
    });
  expect(growthOf(of, 20)).toBeLessThan(mostGrowth);
});
