import fc from 'fast-check';
import { type Atlas, answer, compileAtlas, explain, type NameAnswer, type Sheet, type Verdict } from '../../../reasoner/index.ts';
import { meanings, membersOf } from '../../oracle/meanings.ts';
import { type Case, randomCase } from '../../oracle/random-atlas.ts';
import { contradictions } from '../../oracle/reading.ts';

/** Made-up units over made-up atlases, none contradictory in itself (O6); seeds apart from those of the oracle. */
export const units: fc.Arbitrary<Case> = fc
  .integer({ min: 1_000_000, max: 2_000_000 })
  .map((seed) => ({ ...randomCase(seed), [fc.toStringMethod]: () => `the unit of seed ${seed}` }))
  .filter(({ sheet }) => contradictions(sheet).length === 0);

/** The verdict on a unit that does not contradict itself. */
export const verdictOn = (atlas: Atlas, sheet: Sheet): Verdict => {
  const found = answer(compileAtlas(atlas), sheet);
  if (found.kind !== 'verdict') throw new Error(`sheet ${sheet.id} contradicts itself`);
  return found;
};

/** Everything an answer says that does not hang on the order or the spelling of ids: the conflicts and swaps of every name too. */
export const summaryOf = (atlas: Atlas, sheet: Sheet) => {
  const compiled = compileAtlas(atlas);
  const verdict = verdictOn(atlas, sheet);
  const meaningsOf = (id: NameAnswer['name']['id']) =>
    verdict.names.filter(({ name }) => name.id === id).flatMap(({ name }) => meanings(name));
  return {
    honest: verdict.honest.flatMap(meaningsOf).sort(),
    open: verdict.open.flatMap(meaningsOf).sort(),
    unit: verdict.unit.found.map((conflict) => membersOf(conflict, null)).sort(),
    slots: verdict.slots
      .map((slot) => [
        slot.slot,
        slot.doubtful,
        slot.absent,
        slot.listed,
        slot.removedByObservations,
        [...slot.candidates].sort(),
        slot.removedByJoints.map(({ part }) => part).sort(),
        slot.silent.map(({ part, features }) => `${part}: ${[...features].sort().join(' ')}`).sort(),
      ])
      .sort(byFirst),
    names: verdict.names
      .flatMap((named) => {
        const why = named.status === 'ruled out' ? explain(compiled, sheet, named.name.id) : null;
        const conflicts = why?.conflicts?.found.map((conflict) => membersOf(conflict, named.name)).sort();
        const swaps = why?.swaps?.found
          .map((swap) => [
            [...swap.slots].sort().join(' '),
            swap.minutes,
            swap.leaves,
            swap.parts.map(({ slot, parts }) => `${slot}: ${[...parts].sort().join(' ')}`).sort(),
          ])
          .sort(byFirst);
        return meanings(named.name).map((meaning) => [meaning, named.status, [...named.unsettled].sort(), conflicts, swaps]);
      })
      .sort(byFirst),
  };
};

const byFirst = (a: readonly unknown[], b: readonly unknown[]): number => (String(a[0]) < String(b[0]) ? -1 : 1);

/** Status of every name, by meaning. */
export const statusesOf = (verdict: Verdict): Map<string, NameAnswer['status']> =>
  new Map(verdict.names.flatMap(({ name, status }) => meanings(name).map((meaning) => [meaning, status] as const)));
