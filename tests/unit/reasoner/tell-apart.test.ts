import { describe, expect, test } from 'vitest';
import { type Apart, type SubjectRef, tellApart } from '../../../reasoner/index.ts';
import { proofHolds } from '../../oracle/proof-holds.ts';
import { demo } from '../seed/demo-atlas.ts';

const ref = (kind: SubjectRef['kind'], id: string) => ({ kind, id }) as unknown as SubjectRef;
const apart = (refs: readonly SubjectRef[], scope = {}): Apart => {
  const answer = tellApart(demo, refs, scope);
  if (answer.kind !== 'apart') throw new Error(JSON.stringify(answer));
  return answer;
};
const rowOf = (answer: Apart, feature: string) => answer.rows.find((row) => row.feature === feature);

describe('[D1] What separates', () => {
  test('[D1] a pattern wheel that differs only in cutback and weld is told by these, and by nothing both could show', () => {
    const wheel = demo.data.parts.find(
      (part) =>
        part.slot === 'turbine-wheel' && part.patternOf !== undefined && part.facts['turbine-wheel-cutback-angle' as never] !== undefined,
    );
    if (wheel?.patternOf === undefined) throw new Error('the pack has no pattern wheel');
    const answer = apart([ref('part', wheel.id), ref('part', wheel.patternOf)]);
    for (const row of answer.rows.filter(({ separates }) => separates[0] === 'holds')) {
      const [own, other] = row.cells.map(({ facts }) => facts.map(({ fact }) => JSON.stringify(fact)));
      expect(own).not.toEqual(other);
    }
    expect(answer.smallest.size).toBe(1);
  });

  test('[D1] what the atlas does not know never separates, and is named as what may', () => {
    const [one, other] = demo.data.parts.filter(({ slot }) => slot === 'turbine-wheel') as [
      (typeof demo.data.parts)[number],
      (typeof demo.data.parts)[number],
    ];
    const blank = { ...demo, parts: new Map([...demo.parts, [other.id, { ...other, facts: {} }]]) };
    const answer = tellApart(blank, [ref('part', one.id), ref('part', other.id)]);
    if (answer.kind !== 'apart') throw new Error(answer.kind);
    expect(answer.rows.every(({ separates }) => separates[0] === 'not known')).toBe(true);
    expect(answer.smallest.size).toBe(0);
    expect(answer.cheapest).toBeNull();
    expect(answer.notApart).toEqual([{ pair: 0, might: answer.rows.map(({ feature }) => feature) }]);
  });

  test('[D1] a family that may hold either wheel is not separated by what one of them shares', () => {
    const answer = apart([ref('family', 'petrel'), ref('family', 'skua')]);
    for (const row of answer.rows) {
      const [a, b] = row.cells.map(({ facts }) => new Set(facts.map(({ fact }) => JSON.stringify(fact))));
      const shared = [...(a ?? [])].some((fact) => b?.has(fact));
      if (shared) expect(row.separates[0]).toBe('fails');
    }
  });

  test('[D1] rows stand in the order of their minutes, and those that separate for certain stand first', () => {
    const { rows } = apart(['petrel', 'skua', 'northquay', 'gannet', 'tern'].map((id) => ref('family', id)));
    const sure = rows.filter(({ separates }) => separates.includes('holds'));
    expect(rows.slice(0, sure.length)).toEqual(sure);
    expect(sure.map(({ minutes }) => minutes)).toEqual(sure.map(({ minutes }) => minutes).sort((a, b) => a - b));
  });

  test('[O5] the nameplate is read only where it is asked for; letters and strip-down are left out when they are not wanted', () => {
    const refs = demo.data.models
      .filter(({ family }) => family === 'petrel')
      .slice(0, 2)
      .map(({ id }) => id)
      .map((id) => ref('model', id));
    const withPlate = apart(refs, { plate: true });
    expect(rowOf(withPlate, 'nameplate-number')?.separates).toEqual(['holds']);
    expect(apart(refs).rows.some(({ feature }) => feature.startsWith('nameplate-'))).toBe(false);
    const received = apart(refs, { letters: false, stages: ['as-received' as never] });
    for (const { feature } of received.rows) {
      const known = demo.features.get(feature);
      expect([known?.stage, known?.kind === 'mark']).toEqual(['as-received', false]);
    }
  });
});

describe('[D2] Smallest sets', () => {
  test('[D2] every pair is separated by some check of each set, and the proof holds by itself', () => {
    let proved = 0;
    const ids = demo.data.families.map(({ id }) => id);
    for (let seed = 0; seed < 40; seed += 1) {
      const refs = [0, 1, 2, 3, 4].map((k) => ref('family', ids[(seed * 3 + k * (seed + 1)) % ids.length] as string));
      if (new Set(refs.map(({ id }) => id)).size < 5) continue;
      const answer = apart(refs, { letters: false, stages: ['as-received' as never] });
      const closed = new Set(answer.notApart.map(({ pair }) => pair));
      const asked = answer.pairs.flatMap((_, pair) => (closed.has(pair) ? [] : [pair]));
      const covers = answer.rows.map(({ separates }) => asked.flatMap((pair) => (separates[pair] === 'holds' ? [pair] : [])));
      for (const { checks } of answer.smallest.sets) {
        expect(checks).toHaveLength(answer.smallest.size);
        const met = new Set(checks.flatMap((id) => covers[answer.rows.findIndex(({ feature }) => feature === id)] as number[]));
        expect([...met].sort((a, b) => a - b)).toEqual(asked);
      }
      expect(answer.cheapest?.minutes ?? 0).toBeLessThanOrEqual(answer.smallest.sets[0]?.minutes ?? 0);
      if (answer.smallest.proof === null) continue;
      proved += 1;
      const inAsked = asked.map((pair) => pair);
      const renumbered = covers.map((pairs) => pairs.map((pair) => inAsked.indexOf(pair)));
      const proof = JSON.parse(
        JSON.stringify(answer.smallest.proof, (key, value) =>
          key === 'pair' ? inAsked.indexOf(value) : key === 'pairs' ? value.map((pair: number) => inAsked.indexOf(pair)) : value,
        ),
      );
      expect(proofHolds(asked.length, renumbered, answer.smallest.size - 1, proof)).toBe(true);
      expect(answer.smallest.words.length).toBeGreaterThan(1);
    }
    expect(proved).toBeGreaterThan(5);
  });
});

describe('What cannot be asked', () => {
  test('[T1] too few, too many, unknown, and parts of different slots are named as such', () => {
    expect(tellApart(demo, [ref('family', 'petrel'), ref('family', 'petrel')])).toEqual({ kind: 'too few or too many', found: 1 });
    expect(tellApart(demo, [ref('family', 'petrel'), ref('family', 'heron')])).toMatchObject({ kind: 'no such subject' });
    const shaft = demo.data.parts.find(({ slot }) => slot === 'shaft');
    const wheel = demo.data.parts.find(({ slot }) => slot === 'turbine-wheel');
    expect(tellApart(demo, [ref('part', shaft?.id ?? ''), ref('part', wheel?.id ?? '')])).toMatchObject({ kind: 'not comparable' });
    expect(tellApart(demo, [ref('part', shaft?.id ?? ''), ref('family', 'petrel')])).toMatchObject({ kind: 'not comparable' });
  });
});
