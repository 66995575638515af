import fc from 'fast-check';
import { expect, it } from 'vitest';
import { goTogether } from '../../../reasoner/compile/compiled.ts';
import {
  answer,
  type CompiledAtlas,
  compileAtlas,
  type Fact,
  type Feature,
  mayStop,
  type Observation,
  type Seen,
  type Sheet,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { randomOddsCase } from '../../oracle/random-odds.ts';

const said = (atlas: CompiledAtlas, sheet: Sheet): string => {
  const verdict = answer(atlas, sheet);
  return verdict.kind === 'contradiction' ? 'contradiction' : JSON.stringify([verdict.honest, verdict.claim?.status ?? null]);
};

/** A reading of a part whose fact is known, as it could truly be taken. */
const readOf = (dice: Dice, feature: Feature, fact: Fact): Seen | null => {
  switch (fact.kind) {
    case 'count': {
      const count = dice.whole(fact.from, fact.to);
      return { kind: 'count', from: count, to: count };
    }
    case 'measure': {
      const [least, greatest] = [
        fact.nominal + fact.lower - (feature.wear?.below ?? 0),
        fact.nominal + fact.upper + (feature.wear?.above ?? 0),
      ];
      return { kind: 'measure', value: least + ((greatest - least) * dice.whole(0, 8)) / 8 };
    }
    case 'choice':
      return { kind: 'choice', option: dice.one(fact.anyOf) };
    case 'presence':
      return fact;
    case 'mark':
      return { kind: 'mark', text: dice.one([...fact.anyOf, ...(fact.blank ? [null] : [])]) };
    case 'not known':
      return null;
  }
};

/** The checks not made yet, read off a unit of parts the verdict leaves, all of which meet; null where chance found no such unit. */
const readOn = (dice: Dice, atlas: CompiledAtlas, sheet: Sheet): Sheet | null => {
  const verdict = answer(atlas, sheet);
  if (verdict.kind === 'contradiction') return null;
  const seen = new Set(sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ feature }) => feature));
  const unseen = new Set((sheet.unseen ?? []).map(({ feature }) => feature));
  const chosen = verdict.slots.map(({ candidates, doubtful }) => (doubtful || candidates.length === 0 ? null : dice.one(candidates)));
  const meets = atlas.joints.every((joint) => {
    const { a, b } = joint;
    const [p, q] = [chosen[a] ?? null, chosen[b] ?? null];
    if (p === null || q === null) return true;
    const [one, other] = [atlas.slots[a], atlas.slots[b]] as [CompiledAtlas['slots'][number], CompiledAtlas['slots'][number]];
    return goTogether(atlas, joint, one.partNumber.get(p) as number, other.partNumber.get(q) as number);
  });
  if (!meets) return null;
  const readings = atlas.data.features.flatMap((feature): Observation[] => {
    const part = chosen[atlas.slotNumber.get(feature.slot) as number] ?? null;
    const fact = part === null ? undefined : atlas.parts.get(part)?.facts[feature.id];
    const value = fact === undefined || seen.has(feature.id) || unseen.has(feature.id) ? null : readOf(dice, feature, fact);
    if (value === null) return [];
    const u = (feature.resolution ?? 0) / Math.sqrt(3) || 1e-6;
    return [
      {
        id: `on-${feature.id}` as Observation['id'],
        slot: feature.slot,
        feature: feature.id,
        value,
        sure: value.kind === 'measure' ? { kind: 'measured', u } : { kind: 'seen' },
      },
    ];
  });
  return { ...sheet, observations: [...sheet.observations, ...readings] };
};

it('[Q1] where one may stop, the rest of the checks, read off whatever parts the verdict leaves, change neither the honest name nor the claim', () => {
  const tally = { 'you may stop': 0, 'go on': 0, 'not settled': 0, readOn: 0, readings: 0 };
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 20_000 }), (seed) => {
      const { atlas: made, sheet: noted } = randomOddsCase(seed);
      const once = new Map(noted.observations.map((observation) => [observation.feature, observation]));
      // What an unlisted part reads is left out: mostly the unit is built of what is listed, seen in part.
      const sheet: Sheet = { ...noted, observations: [...once.values()].slice(0, 8) };
      const atlas = compileAtlas(made);
      const stopping = mayStop(atlas, sheet);
      if (stopping === null) return;
      tally[stopping.kind] += 1;
      if (stopping.kind !== 'you may stop') return;
      const now = said(atlas, sheet);
      const dice = new Dice(seed);
      for (let i = 0; i < 6; i += 1) {
        const next = readOn(dice, atlas, sheet);
        if (next === null) continue;
        tally.readOn += 1;
        tally.readings += next.observations.length - sheet.observations.length;
        expect(said(atlas, next)).toBe(now);
      }
    }),
    { numRuns: 250, seed: 17 },
  );
  console.info(`stopping: ${JSON.stringify(tally)}`);
  expect(tally['you may stop']).toBeGreaterThan(40);
  expect(tally['go on']).toBeGreaterThan(40);
  expect(tally.readings).toBeGreaterThan(300);
  // Hardly ever left open.
  expect(tally['not settled']).toBeLessThan(25);
});
