import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { disjointConflicts, enoughToGiveUp } from '../../../reasoner/algebra/disjoint-conflicts.ts';
import { dualize } from '../../../reasoner/algebra/dualize.ts';
import { answer, type Conflict, compileAtlas, explain, type Sheet } from '../../../reasoner/index.ts';
import { units } from './units.ts';

const runs = { seed: 20261128, numRuns: 150 };

/** Forbidden sets of up to nine labels, and which entry each label belongs to; below zero it is none. */
const questions = fc.record({
  forbidden: fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 4 }), { maxLength: 8 }),
  entryAt: fc.array(fc.integer({ min: -1, max: 5 }), { minLength: 9, maxLength: 9 }),
  order: fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7, 8], { minLength: 9 }),
});
const keeping = (forbidden: readonly (readonly number[])[]) => (kept: Uint8Array) =>
  forbidden.every((set) => set.some((label) => kept[label] === 0));
const entriesOf = (set: readonly number[], entryAt: readonly number[]): Set<number> =>
  new Set(set.map((label) => entryAt[label] as number).filter((entry) => entry >= 0));
const apart = (sets: readonly Set<number>[]): boolean =>
  sets.reduce((sum, set) => sum + set.size, 0) === new Set(sets.flatMap((set) => [...set])).size;

/** The most of these sets that are pairwise disjoint: every choice tried. */
const mostApart = (sets: readonly Set<number>[]): number => {
  let most = 0;
  for (let choice = 0; choice < 2 ** sets.length; choice += 1) {
    const chosen = sets.filter((_, i) => (choice >>> i) & 1);
    if (apart(chosen)) most = Math.max(most, chosen.length);
  }
  return most;
};

describe('conflicts that share no entry', () => {
  it('[K1] are minimal conflicts, share none, and leave nothing in conflict when their entries are set aside', () => {
    let found = 0;
    fc.assert(
      fc.property(questions, ({ forbidden, entryAt, order }) => {
        const keeps = keeping(forbidden);
        const sets = disjointConflicts(entryAt, order, keeps);
        found += sets.length;
        for (const set of sets) {
          const flags = (labels: readonly number[]) => Uint8Array.from({ length: 9 }, (_, label) => (labels.includes(label) ? 1 : 0));
          expect(keeps(flags(set))).toBe(false);
          for (const left of set) expect(keeps(flags(set.filter((label) => label !== left)))).toBe(true);
        }
        const held = sets.map((set) => entriesOf(set, entryAt));
        expect(apart(held)).toBe(true);
        if (held.some((set) => set.size === 0)) return;
        const gone = new Set(held.flatMap((set) => [...set]));
        expect(keeps(Uint8Array.from({ length: 9 }, (_, label) => (gone.has(entryAt[label] as number) ? 0 : 1)))).toBe(true);
      }),
      { seed: runs.seed, numRuns: 2000 },
    );
    expect(found).toBeGreaterThan(2000);
  });

  it('[K1] every entry that conflicts by itself is one of them, so that none hides behind a longer one', () => {
    fc.assert(
      fc.property(questions, ({ forbidden, entryAt, order }) => {
        const keeps = keeping(forbidden);
        const bare = Uint8Array.from(entryAt, (entry) => (entry < 0 ? 1 : 0));
        if (!keeps(bare)) return;
        const alone = [0, 1, 2, 3, 4, 5].filter((entry) => !keeps(Uint8Array.from(entryAt, (of) => (of < 0 || of === entry ? 1 : 0))));
        const told = disjointConflicts(entryAt, order, keeps).map((set) => [...entriesOf(set, entryAt)].join());
        for (const entry of alone) expect(told).toContain(String(entry));
      }),
      { seed: runs.seed, numRuns: 2000 },
    );
  });

  it('[K1] so many entries given up make the rest consistent exactly where trying every choice of them says so', () => {
    let [enough, tooFew] = [0, 0];
    fc.assert(
      fc.property(questions, fc.integer({ min: 0, max: 4 }), ({ forbidden, entryAt, order }, atMost) => {
        const keeps = keeping(forbidden);
        const byTrying = Array.from({ length: 2 ** 6 }, (_, choice) => choice).some((choice) => {
          const gone = [0, 1, 2, 3, 4, 5].filter((entry) => (choice >>> entry) & 1);
          return gone.length <= atMost && keeps(Uint8Array.from(entryAt, (entry) => (gone.includes(entry) ? 0 : 1)));
        });
        const known = disjointConflicts(entryAt, order, keeps);
        expect(enoughToGiveUp(entryAt, atMost, known, keeps, 10_000)).toBe(byTrying);
        if (byTrying) enough += 1;
        else tooFew += 1;
        // Without the questions to say so it is not said.
        expect(enoughToGiveUp(entryAt, atMost, known, keeps, 0)).toBe(false);
      }),
      { seed: runs.seed, numRuns: 2000 },
    );
    expect(Math.min(enough, tooFew)).toBeGreaterThan(300);
  });

  it('[K1] a search that begins with some of the conflicts ends with all of them', () => {
    fc.assert(
      fc.property(questions, ({ forbidden, entryAt, order }) => {
        const keeps = keeping(forbidden);
        expect(dualize(9, keeps, 1000, disjointConflicts(entryAt, order, keeps))).toEqual(dualize(9, keeps, 1000));
      }),
      { seed: runs.seed, numRuns: 2000 },
    );
  });

  it('[K1] a search that stopped gives conflicts of the whole, and does not say that these are all', () => {
    let stopped = 0;
    fc.assert(
      fc.property(questions, fc.integer({ min: 1, max: 60 }), ({ forbidden }, most) => {
        const keeps = keeping(forbidden);
        const all = dualize(9, keeps, 1000);
        const some = dualize(9, keeps, { conflicts: 1000, questions: most });
        for (const set of some.conflicts) expect(all.conflicts).toContainEqual(set);
        if (some.complete) expect(some).toEqual(all);
        else stopped += 1;
        expect(dualize(9, keeps, { conflicts: 1000, questions: 100_000 })).toEqual(all);
      }),
      { seed: runs.seed, numRuns: 1000 },
    );
    expect(stopped).toBeGreaterThan(200);
  });
});

/** The unit offered as a model of its atlas, where nothing is claimed of it. */
const claiming = (sheet: Sheet, models: readonly { readonly name: string }[]): Sheet => ({
  ...sheet,
  claimed: sheet.claimed ?? models[sheet.observations.length % models.length]?.name ?? null,
});

describe('what a claim rests on', () => {
  it('[O7] exactly the entries without which, judged anew, it is no longer ruled out: every entry tried', () => {
    const seen = { claims: 0, none: 0, one: 0, several: 0 };
    fc.assert(
      fc.property(units, ({ atlas, sheet: given }) => {
        const sheet = claiming(given, atlas.models);
        const compiled = compileAtlas(atlas);
        const statusOf = (observations: Sheet['observations']) => {
          const found = answer(compiled, { ...sheet, observations }, { explain: 'none' });
          return found.kind === 'verdict' ? found.claim : null;
        };
        const claim = statusOf(sheet.observations);
        if (claim === null) return;
        const without = sheet.observations
          .filter(({ sure }) => sure.kind !== 'told')
          .filter((entry) => {
            const left = statusOf(sheet.observations.filter((each) => each !== entry));
            return claim.status === 'ruled out' && left !== null && left.status !== 'ruled out';
          });
        expect([...claim.restsOn].sort()).toEqual(without.map(({ id }) => id).sort());
        if (claim.status !== 'ruled out') return;
        seen.claims += 1;
        seen[without.length === 0 ? 'none' : without.length === 1 ? 'one' : 'several'] += 1;
        const [first] = claim.sentences;
        expect(first?.startsWith('Everything against')).toBe(without.length > 0);
      }),
      { ...runs, numRuns: 400 },
    );
    expect(Math.min(seen.none, seen.one, seen.several), JSON.stringify(seen)).toBeGreaterThan(5);
  });
});

describe('reasons counted aloud', () => {
  const keysOf = ({ members }: Conflict): Set<string> =>
    new Set(
      members.flatMap((member) => (member.kind === 'observation' ? [member.observation] : member.kind === 'absent' ? ['missing'] : [])),
    );

  it('[K1] no more and no fewer than trying every choice of conflicts finds, all that is missing being one entry', () => {
    let [counted, several] = [0, 0];
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const compiled = compileAtlas(atlas);
        const verdict = answer(compiled, sheet, { explain: 'none' });
        if (verdict.kind !== 'verdict') return;
        for (const { name, status } of verdict.names.slice(0, 12)) {
          if (status !== 'ruled out') continue;
          const conflicts = explain(compiled, sheet, name.id).conflicts;
          const found = conflicts?.found ?? [];
          if (found.length > 12) continue;
          const sets = found.map(keysOf);
          const bare = sets.some((set) => set.size === 0) ? 1 : 0;
          const numbers = new Map([...new Set(sets.flatMap((set) => [...set]))].map((key, i) => [key, i]));
          const most = mostApart(
            sets.filter(({ size }) => size > 0).map((set) => new Set([...set].map((key) => numbers.get(key) as number))),
          );
          expect(conflicts?.independent).toEqual({ count: bare + most, exact: true });
          counted += 1;
          if (most > 1) several += 1;
        }
      }),
      runs,
    );
    expect(counted).toBeGreaterThan(300);
    expect(several).toBeGreaterThan(50);
  });

  it('[K1] a search that stopped counts no more than there are, and says “exact” only where that is so', () => {
    const seen = { stopped: 0, exact: 0 };
    fc.assert(
      fc.property(units, ({ atlas, sheet }) => {
        const compiled = compileAtlas(atlas);
        const verdict = answer(compiled, sheet, { explain: 'none' });
        if (verdict.kind !== 'verdict') return;
        for (const { name, status } of verdict.names.slice(0, 12)) {
          if (status !== 'ruled out') continue;
          const all = explain(compiled, sheet, name.id).conflicts;
          const some = explain(compiled, sheet, name.id, { conflicts: 1000, questions: 12 }).conflicts;
          if (!all?.complete || !some || some.complete) continue;
          seen.stopped += 1;
          if (some.independent.exact) seen.exact += 1;
          if (some.independent.exact) expect(some.independent).toEqual(all.independent);
          else expect(some.independent.count).toBeLessThanOrEqual(all.independent.count);
          expect(some.independent.count).toBeGreaterThan(0);
        }
      }),
      runs,
    );
    expect(seen.stopped).toBeGreaterThan(100);
    expect(seen.exact).toBeGreaterThan(20);
  });
});
