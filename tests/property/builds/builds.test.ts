import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asId,
  type CompiledAtlas,
  compileAtlas,
  type FeatureId,
  type FitVerdict,
  type ObservationId,
  type PartId,
  type Plan,
  planBuild,
  type Sheet,
  type SlotId,
  slotOptions,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { type BuildCase, randomBuild } from '../../oracle/random-build.ts';

const wanted = { crossing: true, unpriced: true, constrained: false, most: 100 };
const cases = { seed: 20261125, numRuns: 120 };
const seeds = fc.integer({ min: 1, max: 1_000_000 });

/** A whole build over a made-up atlas: a part in every slot that is not absent. */
const wholeBuild = (seed: number): BuildCase => {
  const made = randomBuild(seed, wanted);
  const dice = new Dice(seed);
  const chosen = { ...made.sheet.chosen };
  for (const slot of made.atlas.slots) {
    if (chosen[slot.id] !== undefined || made.sheet.absent.includes(slot.id)) continue;
    chosen[slot.id] = dice.one(made.atlas.parts.filter((part) => part.slot === slot.id)).id;
  }
  return { ...made, sheet: { ...made.sheet, chosen } };
};

const plan = (atlas: CompiledAtlas, sheet: Sheet): Plan => {
  const answer = planBuild(atlas, sheet);
  if (answer.kind !== 'plan') throw new Error('no observations, no contradiction');
  return answer;
};

const goodness: Readonly<Record<FitVerdict, number>> = { 'will not fit': 0, 'not known': 1, 'after work': 2, 'drops in': 3 };

describe('[F4] builds on paper', () => {
  test('[J2] nothing falls out: every chosen part is in the answer and in the name, whatever its joints', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, sheet } = wholeBuild(seed);
        const compiled = compileAtlas(atlas);
        const answer = plan(compiled, sheet);
        expect(Object.fromEntries(answer.slots.flatMap(({ slot, part }) => (part === null ? [] : [[slot, part]])))).toEqual(sheet.chosen);
        // What stays open with every part chosen stays so for what the atlas itself lacks (A7).
        for (const { name, status, lacks } of answer.names) if (status === 'open') expect(lacks.length, name.text).toBeGreaterThan(0);
        const jointless = plan(compileAtlas({ ...atlas, joints: [], chains: [] }), sheet);
        expect(jointless.honest).toEqual(answer.honest);
      }),
      cases,
    );
  });

  test('[F4] a part is marked after work where it is worked on and nowhere else; what is wrong or not known of its joints goes before', () => {
    const seen = new Map<string, number>();
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, sheet } = wholeBuild(seed);
        const compiled = compileAtlas(atlas);
        const answer = plan(compiled, sheet);
        if (answer.verdict === 'after work') {
          const choosing = [
            ...answer.joints.flatMap(({ joint, after }) =>
              after.verdict === 'after work' ? (compiled.joints.find((each) => each.data.id === joint)?.data.name ?? []) : [],
            ),
            ...answer.chains.flatMap(({ name, after }) => (after.verdict === 'after work' ? name : [])),
          ];
          const [, afterwards = ''] = answer.sentence.split('measured and chosen: ');
          for (const name of choosing) expect(afterwards).toContain(name);
          expect(answer.sentence.includes('measured and chosen')).toBe(choosing.length > 0);
          expect(/after (one operation|\d+ operations) on/.test(answer.sentence)).toBe(answer.works.length > 0);
          if (choosing.length > 0 && answer.works.length > 0) seen.set('both', (seen.get('both') ?? 0) + 1);
        }
        for (const { slot, part, mark } of answer.slots) {
          const own = answer.joints.filter(({ a, b }) => a === part || b === part);
          seen.set(`${mark}`, (seen.get(`${mark}`) ?? 0) + 1);
          const worked = answer.works.some((work) => work.slot === slot);
          const has = (verdict: FitVerdict) => own.some((joint) => joint.verdict === verdict);
          expect(mark === null).toBe(part === null || own.length === 0);
          if (mark === null) continue;
          expect(mark === 'will not fit').toBe(has('will not fit'));
          expect(mark === 'not known').toBe(!has('will not fit') && has('not known'));
          if (mark === 'after work') expect(worked).toBe(true);
          if (worked) expect(['drops in', 'measure and choose']).not.toContain(mark);
          // With every work done, each of its joints then goes together for every pair, or both its parts are to be chosen.
          const choosing = own.some(({ verdict, after }) => verdict === 'after work' && after.verdict === 'after work');
          if (mark === 'drops in') expect(choosing).toBe(false);
          if (mark === 'measure and choose') expect(choosing).toBe(true);
        }
      }),
      cases,
    );
    for (const mark of ['drops in', 'measure and choose', 'after work', 'not known', 'will not fit'])
      expect(seen.get(mark) ?? 0, mark).toBeGreaterThan(10);
    expect(seen.get('both') ?? 0, 'works done and pairs chosen in one build').toBeGreaterThan(0);
  });

  test('[F4] the order in which parts were chosen does not show', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, sheet } = wholeBuild(seed);
        const compiled = compileAtlas(atlas);
        const backwards = Object.fromEntries(Object.entries(sheet.chosen).reverse()) as Sheet['chosen'];
        expect(plan(compiled, { ...sheet, chosen: backwards })).toEqual(plan(compiled, sheet));
      }),
      cases,
    );
  });

  test('[F2] a fact made unknown never turns a build good', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, sheet } = wholeBuild(seed);
        const before = plan(compileAtlas(atlas), sheet);
        const dice = new Dice(seed + 1);
        if (Object.keys(sheet.chosen).length === 0) return;
        const [, id] = dice.one(Object.entries(sheet.chosen) as [SlotId, PartId][]);
        const facts = atlas.parts.find((part) => part.id === id)?.facts ?? {};
        const known = Object.keys(facts) as FeatureId[];
        if (known.length === 0) return;
        const feature = dice.one(known);
        const parts = atlas.parts.map((part) =>
          part.id === id ? { ...part, facts: { ...part.facts, [feature]: { kind: 'not known' } as const } } : part,
        );
        const after = plan(compileAtlas({ ...atlas, parts }), sheet);
        after.joints.forEach((joint, i) => {
          const was = before.joints[i]?.fit.verdict as FitVerdict;
          if (joint.fit.verdict === 'drops in' || joint.fit.verdict === 'after work')
            expect(goodness[joint.fit.verdict], joint.joint).toBeLessThanOrEqual(goodness[was]);
        });
      }),
      cases,
    );
  });

  test('[F3] a size measured exactly at the middle of narrow limits keeps a joint that drops in', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, sheet } = wholeBuild(seed);
        const compiled = compileAtlas(atlas);
        const before = plan(compiled, sheet);
        const observations = (Object.entries(sheet.chosen) as [SlotId, PartId][]).flatMap(([slot, id]) =>
          Object.entries(compiled.parts.get(id)?.facts ?? {}).flatMap(([feature, fact], i) =>
            fact.kind === 'measure'
              ? [
                  {
                    id: asId<ObservationId>(`${slot}-${i}`),
                    slot,
                    feature: feature as FeatureId,
                    value: { kind: 'measure' as const, value: fact.nominal + (fact.lower + fact.upper) / 2 },
                    sure: { kind: 'measured' as const, u: 1e-7 },
                  },
                ]
              : [],
          ),
        );
        const after = plan(compiled, { ...sheet, observations });
        expect(after.slots.some(({ stranger }) => stranger)).toBe(false);
        after.joints.forEach((joint, i) => {
          const was = before.joints[i]?.fit.verdict;
          // A size that just touches its limit may not touch it by ten nanometres any more; so only what the limits leave room for is asked.
          if (
            was === 'drops in' &&
            before.joints[i]?.fit.findings.every(
              ({ found, asked }) => !found || !asked || (found.least > asked.least && found.greatest < asked.greatest),
            )
          )
            expect(['drops in', 'not known'], joint.joint).toContain(joint.fit.verdict);
        });
      }),
      cases,
    );
  });

  test('[F2] what a slot is offered for is what the build’s joints then say', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, sheet } = wholeBuild(seed);
        const compiled = compileAtlas(atlas);
        const dice = new Dice(seed + 2);
        if (Object.keys(sheet.chosen).length === 0) return;
        const [slot] = dice.one(Object.entries(sheet.chosen) as [SlotId, PartId][]);
        const offered = slotOptions(compiled, sheet, slot);
        const listed = [...offered.options.map(({ part }) => part), ...offered.rest.flatMap(({ parts }) => parts)];
        expect([...listed].sort()).toEqual(
          atlas.parts
            .filter((part) => part.slot === slot)
            .map((part) => part.id)
            .sort(),
        );
        const option = dice.one(listed);
        const joints = plan(compiled, { ...sheet, chosen: { ...sheet.chosen, [slot]: option } }).joints.filter(({ joint }) =>
          offered.joints.includes(joint),
        );
        const verdict = offered.options.find(({ part }) => part === option)?.verdict ?? 'will not fit';
        if (verdict === 'drops in') expect(joints.every(({ fit }) => fit.verdict === 'drops in')).toBe(true);
        if (verdict === 'will not fit')
          expect(joints.some(({ fit, plans }) => fit.verdict === 'will not fit' && !plans.some(({ allowed }) => allowed === 'holds'))).toBe(
            true,
          );
        if (verdict === 'after work')
          expect(joints.every(({ fit, plans }) => fit.verdict !== 'will not fit' || plans.length > 0)).toBe(true);
      }),
      cases,
    );
  });
});
