import { describe, expect, it } from 'vitest';
import { askClingo } from './ask-clingo.ts';
import { askZ3 } from './ask-z3.ts';
import { randomCase } from './random-atlas.ts';
import { contradictions, readQuestion } from './reading.ts';

/** The oracle is itself held to another solver with another encoding, so that it is not believed on its own word. */
describe('clingo and Z3 asked the same', () => {
  it('[N1–N3] [K1] [S1] seeds 3001 to 3012: one answer', async () => {
    let asked = 0;
    for (let seed = 3001; seed <= 3012; seed++) {
      const { atlas, sheet } = randomCase(seed);
      if (contradictions(sheet).length > 0) continue;
      asked++;
      // A name that is one of several is put together from the several, in the same way for both: each is asked about by itself.
      const question = { ...readQuestion(atlas, sheet), several: [], noneOf: [] };
      const clingo = await askClingo(question);
      // Every status; the reasons for three names ruled out, as Z3 takes its time.
      const explained = question.demands.filter((_, i) => clingo.demands[i]?.status === 'ruled out').slice(0, 3);
      const z3 = await askZ3(question, { explain: (demand) => explained.includes(demand) });
      expect(z3.doubtful).toEqual(clingo.doubtful);
      expect(z3.demands).toEqual(
        clingo.demands.map(({ status, conflicts, swaps }, i) => {
          const told = explained.includes(question.demands[i] as (typeof question.demands)[number]);
          return {
            status,
            conflicts: told ? conflicts : [],
            swaps: told ? swaps.map(({ slots }) => [...slots].sort().join(' ')).sort() : [],
          };
        }),
      );
    }
    expect(asked).toBeGreaterThan(8);
  });
});
