import { describe, expect, test } from 'vitest';
import { agrees } from '../../../reasoner/atlas/agree.ts';
import { answer, type Fact, type Feature, type Observation, type Part, type Sheet } from '../../../reasoner/index.ts';
import { findRule } from '../../../reasoner/names/ladder.ts';
import { disjoint, settlingChecks } from '../../../reasoner/report/settling-checks.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { demo, demoAtlas, demoPack } from '../seed/demo-atlas.ts';

type Reading = Pick<Observation, 'value' | 'sure'>;

/** Readings a good example of the part may give: at the ends of its limits, worn or not, with the instrument’s own doubt. */
const readingsOf = (feature: Feature, fact: Fact): Reading[] => {
  switch (fact.kind) {
    case 'not known':
      return [];
    case 'count':
      return [fact.from, fact.to].map((n) => ({ value: { kind: 'count', from: n, to: n }, sure: { kind: 'seen' } }));
    case 'measure': {
      const u = (feature.resolution ?? 0) / Math.sqrt(3);
      const low = fact.nominal + fact.lower - (feature.wear?.below ?? 0) - 2 * u;
      const high = fact.nominal + fact.upper + (feature.wear?.above ?? 0) + 2 * u;
      return [low, high].map((value) => ({ value: { kind: 'measure', value }, sure: u > 0 ? { kind: 'measured', u } : { kind: 'told' } }));
    }
    case 'choice':
      return fact.anyOf.map((option) => ({ value: { kind: 'choice', option }, sure: { kind: 'seen' } }));
    case 'presence':
      return [{ value: { kind: 'presence', present: fact.present }, sure: { kind: 'seen' } }];
    case 'mark':
      return [...fact.anyOf, ...(fact.blank ? [null] : [])].map((text) => ({ value: { kind: 'mark', text }, sure: { kind: 'seen' } }));
  }
};

const found: readonly Sheet[] = demoPack.sheets.filter(({ kind }) => kind === 'found');

describe('what would settle an open slot', () => {
  test('[N2] a check said to settle leaves no reading that an allowed part and another could both give', () => {
    let checked = 0;
    for (const sheet of found) {
      const verdict = answer(demo, sheet);
      if (verdict.kind !== 'verdict') continue;
      const unit = unitOf(demo, sheet);
      const open = verdict.names.filter(({ name, status }) => status === 'open' && verdict.open.includes(name.id)).slice(0, 3);
      for (const { slot, feature: id, names, settles } of settlingChecks(unit, verdict.slots, open)) {
        const feature = demo.features.get(id) as Feature;
        expect(
          sheet.observations.some((one) => one.feature === id && one.sure.kind !== 'told'),
          'not asked for again',
        ).toBe(false);
        const left = verdict.slots.find((each) => each.slot === slot)?.candidates ?? [];
        const compiled = demo.slots.find((each) => each.data.id === slot);
        if (!settles) continue;
        for (const name of names) {
          const demand = findRule(unit, name)?.demands[compiled?.number ?? -1] ?? new Set<number>();
          const allowed = new Set([...demand].map((number) => compiled?.parts[number]?.id));
          const factOf = (part: string): Fact => (demo.parts.get(part as Part['id']) as Part).facts[id] ?? { kind: 'not known' };
          const [ours, others] = [left.filter((part) => allowed.has(part)), left.filter((part) => !allowed.has(part))];
          for (const part of ours)
            for (const reading of readingsOf(feature, factOf(part)))
              for (const other of others)
                expect(agrees(feature, factOf(other), reading), `${sheet.id} ${id}: ${part} beside ${other}`).toBe('fails');
          checked += ours.length * others.length;
        }
      }
    }
    expect(checked).toBeGreaterThan(20);
  });

  test('[O3] what the atlas does not know of a part tells it from nothing', () => {
    for (const feature of demoAtlas.features) expect(disjoint(feature, { kind: 'not known' }, { kind: 'not known' })).toBe(false);
    const count = demoAtlas.features.find(({ kind }) => kind === 'count') as Feature;
    expect(disjoint(count, { kind: 'not known' }, { kind: 'count', from: 7, to: 7 })).toBe(false);
  });

  test('[O2] facts are apart exactly when no reading of either agrees with the other, over the facts the demo atlas holds', () => {
    const byFeature = new Map<string, Map<string, Fact>>();
    for (const part of demoAtlas.parts)
      for (const [feature, fact] of Object.entries(part.facts))
        byFeature.set(feature, (byFeature.get(feature) ?? new Map()).set(JSON.stringify(fact), fact));
    let pairs = 0;
    for (const feature of demoAtlas.features) {
      const facts = [...(byFeature.get(feature.id)?.values() ?? [])].slice(0, 25);
      for (const a of facts)
        for (const b of facts) {
          if (a.kind === 'not known' || b.kind === 'not known') continue;
          const meets = (one: Fact, other: Fact) => readingsOf(feature, one).some((reading) => agrees(feature, other, reading) === 'holds');
          // A measure's limits may lie within the other's, so both sides are asked.
          const meet = meets(a, b) || meets(b, a);
          if (feature.kind === 'count' && !meet) {
            // Ranges that lie across each other without an end in either do not occur among whole numbers.
            expect(disjoint(feature, a, b)).toBe(true);
          } else expect(disjoint(feature, a, b), `${feature.id}: ${JSON.stringify([a, b])}`).toBe(!meet);
          pairs += 1;
        }
    }
    expect(pairs).toBeGreaterThan(500);
  });
});
