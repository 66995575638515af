import fc from 'fast-check';
import { expect, it } from 'vitest';
import { answer, answerInBrief, compileAtlas, type Status } from '../../../reasoner/index.ts';
import { units } from './units.ts';

it('[N1–N3] [K1] [S1] what an atlas keeps of the units it was asked about changes nothing it says of the next', () => {
  let [names, again] = [0, 0];
  fc.assert(
    fc.property(units, fc.array(fc.nat(), { minLength: 2, maxLength: 4 }), ({ atlas, sheet }, cuts) => {
      const kept = compileAtlas(atlas);
      // The sheet grows, shrinks and loses what was missing: what was left of a slot comes back.
      const sheets = cuts.map((cut) => ({
        ...sheet,
        observations: sheet.observations.filter((_, i) => ((cut >>> (i % 30)) & 1) === 1),
        absent: cut % 3 === 0 ? [] : sheet.absent,
      }));
      for (const asked of [sheet, ...sheets, sheet]) {
        const fresh = answer(compileAtlas(atlas), asked, { explain: 'models' });
        expect(answer(kept, asked, { explain: 'models' })).toEqual(fresh);
        const plain = answer(kept, asked, { explain: 'none' });
        if (plain.kind === 'verdict' && fresh.kind === 'verdict') expect(plain.claim?.status).toBe(fresh.claim?.status);
        const { brief } = answerInBrief(kept, asked);
        if (fresh.kind === 'verdict') {
          const of = (status: Status) => fresh.names.filter((name) => name.status === status).length;
          expect(brief).toMatchObject({
            counts: { stands: of('stands'), open: of('open'), 'ruled out': of('ruled out') },
            open: fresh.open,
          });
        }
        if (fresh.kind === 'verdict') names += fresh.names.filter(({ status }) => status !== 'ruled out').length;
        again += 1;
      }
    }),
    { seed: 20261130, numRuns: 60 },
  );
  expect(again).toBeGreaterThan(200);
  expect(names).toBeGreaterThan(500);
});
