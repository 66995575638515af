import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CompiledAtlas,
  compileAtlas,
  explain,
  type FeatureId,
  type Known,
  type Part,
  planWork,
  type ReplacementFit,
  type Sheet,
  type SlotId,
  type SwapSet,
} from '../../../reasoner/index.ts';
import { findRule } from '../../../reasoner/names/ladder.ts';
import { type Unit, unitOf } from '../../../reasoner/unit/unit.ts';
import { unitWith } from '../../../reasoner/unit/unit-with.ts';
import { inOrderOfS1, swapSetsOf } from '../../../reasoner/why/explain.ts';
import { randomCase } from '../../oracle/random-atlas.ts';
import { randomBuild } from '../../oracle/random-build.ts';
import { contradictions } from '../../oracle/reading.ts';
import { verdictOn } from './units.ts';

const seeds = fc.integer({ min: 2_000_000, max: 3_000_000 }).filter((seed) => contradictions(randomCase(seed).sheet).length === 0);
const runs = { seed: 20261128, numRuns: 300 };

/** The made-up unit of a seed over the same atlas with a shop that can work on its parts. */
const unitInShop = (seed: number) => {
  const { atlas } = randomBuild(seed, { crossing: true, unpriced: true, constrained: false, most: 100 });
  const { sheet } = randomCase(seed);
  return { atlas, compiled: compileAtlas(atlas), sheet };
};

/** What one pair comes to, and the minutes it has to be worked; every pair is judged by itself. */
const pair = (atlas: CompiledAtlas, joint: CompiledAtlas['joints'][number], a: Part, b: Part, read: ReadonlyMap<FeatureId, Known>) => {
  const operations = (atlas.data.operations ?? []).filter(({ slot }) => slot === a.slot || slot === b.slot);
  const { fit, verdict, plans } = planWork(joint.data, { a: a.slot, b: b.slot }, a, b, operations, { inHand: read });
  if (verdict !== 'after work') return { kind: verdict, minutes: 0 };
  if (fit.verdict === 'after work') return { kind: 'measure and choose' as const, minutes: 0 };
  const sure = plans
    .filter(({ allowed, after }) => allowed === 'holds' && after.verdict !== 'not known')
    .map(({ hours }) => Math.round(hours * 60));
  return { kind: 'after work' as const, minutes: Math.min(...sure) };
};

/** What was read of a slot's part, the best of several readings of one size. */
const readIn = (sheet: Sheet, slot: SlotId): ReadonlyMap<FeatureId, Known> => {
  const read = new Map<FeatureId, { readonly known: Known; readonly u: number }>();
  for (const { feature, value, sure, ...of } of sheet.observations) {
    if (of.slot !== slot || sure.kind === 'told') continue;
    const u = sure.kind === 'measured' ? sure.u : 0;
    if ((read.get(feature)?.u ?? Number.POSITIVE_INFINITY) <= u) continue;
    const known = (
      value.kind === 'measure'
        ? { kind: 'measured', value: value.value, u }
        : value.kind === 'choice'
          ? { kind: 'choice', anyOf: [value.option] }
          : value
    ) as Known;
    read.set(feature, { known, u });
  }
  return new Map([...read].map(([feature, { known }]) => [feature, known]));
};

type Kind = ReplacementFit | 'drops in';
const best: readonly Kind[] = ['drops in', 'measure and choose', 'after work', 'not known', 'will not fit'];
const worst: readonly Kind[] = ['drops in', 'measure and choose', 'after work', 'depends', 'not known', 'will not fit'];

/** What every part of a swap set needs, joint by joint, as the rule says it. */
const byHand = (compiled: CompiledAtlas, sheet: Sheet, unit: Unit, set: SwapSet) => {
  const given = new Map(set.parts.map(({ slot, parts }) => [slot, parts.map((part) => compiled.parts.get(part) as Part)] as const));
  const numbers = new Map(
    set.parts.map(({ slot, parts }) => {
      const of = compiled.slots[compiled.slotNumber.get(slot) as number];
      return [of?.number as number, parts.map((part) => of?.partNumber.get(part) as number)] as const;
    }),
  );
  const after = unitWith(unit, numbers);
  const at = (joint: CompiledAtlas['joints'][number], part: Part) => {
    const [a, b] = [compiled.slots[joint.a], compiled.slots[joint.b]].map((slot) => slot?.data.id) as [SlotId, SlotId];
    const other = a === part.slot ? b : a;
    const there = after.slots[compiled.slotNumber.get(other) as number];
    if (there === undefined) throw new Error('no such slot');
    const replaced = given.get(other);
    if (replaced?.length === 0 || (replaced === undefined && there.absent)) return null;
    const neighbours =
      replaced ?? there.live.flatMap((group) => (there.groups[group]?.parts ?? []).map((number) => there.of.parts[number] as Part));
    if (replaced === undefined && (there.doubtful || neighbours.length === 0)) return { other, kind: 'not known' as Kind, minutes: 0 };
    const read = replaced === undefined ? readIn(sheet, other) : new Map<FeatureId, Known>();
    const all = neighbours.map((neighbour) =>
      a === part.slot ? pair(compiled, joint, part, neighbour, read) : pair(compiled, joint, neighbour, part, read),
    );
    const going = all.some(({ kind }) => kind !== 'will not fit') ? all.filter(({ kind }) => kind !== 'will not fit') : all;
    const kinds = best.filter((kind) => going.some((each) => each.kind === kind));
    const least = (kind: Kind) => Math.min(...going.filter((each) => each.kind === kind).map(({ minutes }) => minutes));
    if (replaced === undefined && kinds.length > 1) return { other, kind: 'depends' as Kind, minutes: 0 };
    return { other, kind: kinds[0] as Kind, minutes: least(kinds[0] as Kind) };
  };
  const needs = new Map(
    [...given].flatMap(([slot, parts]) =>
      parts.map((part) => {
        const joints = compiled.joints.filter((joint) => [joint.a, joint.b].includes(compiled.slotNumber.get(slot) as number));
        return [part.id, joints.flatMap((joint) => at(joint, part) ?? [])] as const;
      }),
    ),
  );
  const between = (one: Part, two: Part): number => {
    let sum = 0;
    for (const joint of compiled.joints) {
      const [a, b] = [compiled.slots[joint.a], compiled.slots[joint.b]].map((slot) => slot?.data.id);
      const [first, second] = a === one.slot && b === two.slot ? [one, two] : a === two.slot && b === one.slot ? [two, one] : [null, null];
      if (first === null || second === null) continue;
      const { kind, minutes } = pair(compiled, joint, first, second, new Map());
      sum += kind === 'will not fit' ? Number.POSITIVE_INFINITY : minutes;
    }
    return sum;
  };
  const slots = [...given.values()].filter((parts) => parts.length > 0);
  let choices: Part[][] = [[]];
  for (const parts of slots) choices = choices.flatMap((chosen) => parts.map((part) => [...chosen, part]));
  const costs = choices.map((chosen) => {
    const alone = chosen.flatMap((part) => needs.get(part.id) ?? []).filter(({ other }) => !given.has(other));
    const fails = chosen.some((part) => needs.get(part.id)?.some(({ kind }) => kind === 'will not fit'));
    const pairs = chosen.flatMap((one, i) => chosen.slice(i + 1).map((two) => between(one, two)));
    return (
      (fails ? Number.POSITIVE_INFINITY : 0) +
      alone.reduce((sum, { minutes }) => sum + minutes, 0) +
      pairs.reduce((sum, each) => sum + each, 0)
    );
  });
  const least = Math.min(...costs);
  return { needs, work: Number.isFinite(least) ? least : 0 };
};

describe('what swaps need', () => {
  it('[S1] is what judging every pair by itself gives: which parts drop in, what the others need, the least work, and the order it makes', () => {
    const seen = new Map<string, number>();
    fc.assert(
      fc.property(seeds, (seed) => {
        const { atlas, compiled, sheet } = unitInShop(seed);
        const unit = unitOf(compiled, sheet);
        for (const { name } of verdictOn(atlas, sheet)
          .names.filter(({ status }) => status === 'ruled out')
          .slice(0, 8)) {
          const rule = findRule(unit, name.id);
          const found = explain(compiled, sheet, name.id).swaps?.found ?? [];
          if (rule === undefined) throw new Error(`no name ${name.id}`);
          expect([...found].sort(inOrderOfS1)).toEqual(found);
          // The sets themselves are those that need nothing said of them.
          const bare = swapSetsOf(unit, rule).found;
          const key = (set: SwapSet) =>
            `${set.slots.join()} ${set.parts.map(({ parts }) => [...parts].sort().join()).join('|')} ${set.minutes - set.work} ${set.leaves}`;
          expect(found.map(key).sort()).toEqual(bare.map(key).sort());
          // Beside a plate that a maker issues nothing else is fitted; those sets are like these.
          for (const set of found.filter(({ plates }) => plates.length === 0)) {
            const { needs, work } = byHand(compiled, sheet, unit, set);
            expect(set.work, `${name.id} ${set.slots.join()}`).toBe(work);
            if (work > 0) seen.set('work', (seen.get('work') ?? 0) + 1);
            for (const { parts, needs: told } of set.parts) {
              for (const part of parts) {
                const own = (needs.get(part) ?? []).filter(({ kind }) => kind !== 'drops in');
                const need = told.find((each) => each.parts.includes(part));
                const kind = own.reduce<Kind>((so, each) => (worst.indexOf(each.kind) > worst.indexOf(so) ? each.kind : so), 'drops in');
                expect(need?.fit ?? 'drops in', part).toBe(kind);
                expect(need?.sentences.length ?? 0, part).toBe(own.length);
                expect(need?.minutes ?? 0, part).toBe(own.reduce((sum, { minutes }) => sum + minutes, 0));
                seen.set(kind, (seen.get(kind) ?? 0) + 1);
              }
              const dropIn = parts.filter((part) => !told.some((each) => each.parts.includes(part)));
              expect(parts).toEqual([...dropIn, ...told.flatMap((each) => each.parts)]);
            }
          }
        }
      }),
      runs,
    );
    for (const kind of ['drops in', 'measure and choose', 'depends', 'not known', 'will not fit', 'work'])
      expect(seen.get(kind) ?? 0, kind).toBeGreaterThan(4);
  });
});
