import { describe, expect, test } from 'vitest';
import {
  buildKey,
  type Fact,
  type Key,
  type KeyAnswer,
  type KeyAsked,
  type KeyNode,
  keyOf,
  type Part,
  problemOf,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { demo } from '../seed/demo-atlas.ts';

const asked: KeyAsked = { level: 'models', scope: { letters: false } };
const made = (one: KeyAsked): Key => {
  const key = keyOf(demo, one);
  if (key === null) throw new Error('no key was made');
  return key;
};

/** Whether this reading of a good part is what the answer says, from the figures alone. */
const fits = (answer: KeyAnswer, fact: Fact): boolean => {
  if (answer.kind === 'range') {
    const read = fact.kind === 'measure' ? fact.nominal : fact.kind === 'count' ? fact.from : Number.NaN;
    return (answer.from === null || read > answer.from) && (answer.to === null || read < answer.to);
  }
  if (fact.kind === 'choice') return answer.values.includes(fact.anyOf[0] as string);
  if (fact.kind === 'presence') return answer.values.includes(fact.present ? 'there' : 'not there');
  return false;
};

describe('[D4] A key to the whole atlas', () => {
  test('[D4] a good unit of any model, its parts as the model lists them and read at their nominal sizes, comes to an end with its name', () => {
    const { problem, features, labels } = problemOf(demo, asked);
    const { root } = buildKey(problem);
    demo.data.models.forEach((model, m) => {
      for (let seed = 1; seed <= 4; seed += 1) {
        const dice = new Dice(1000 * seed + m);
        const parts = new Map<string, Part>();
        for (const slot of demo.data.slots) {
          const listed = model.allowed.filter((one) => one.slot === slot.id);
          if (listed.length > 0) parts.set(slot.id, demo.parts.get(dice.one(listed).part) as Part);
        }
        let at: KeyNode = root;
        while (at.kind === 'check') {
          const feature = features[at.check] as (typeof features)[number];
          const fact = parts.get(feature.slot)?.facts[feature.id];
          const known = fact !== undefined && fact.kind !== 'not known';
          // What the atlas does not know may be read in any way; the unit is there whichever it is.
          const ways: { outcome: { answer: KeyAnswer }; to: KeyNode }[] = known
            ? at.ways.filter(({ outcome }) => fits(outcome.answer, fact))
            : [dice.one(at.ways)];
          expect(ways.length, `${model.id}: ${feature.id}`).toBe(1);
          at = (ways[0] as (typeof ways)[number]).to;
        }
        expect(
          at.labels.map((label) => labels[label]?.id),
          `${model.id}, parts ${[...parts.values()].map(({ id }) => id).join()}`,
        ).toContain(model.id);
      }
    });
  });

  test('[D4] an end says of which housings and plate, looked at on some way to it, it takes for granted that they are the unit’s own', () => {
    for (const scope of [{ letters: false }, { letters: false, stages: ['as-received' as never] }, { plate: true }]) {
      const key = made({ ...asked, scope });
      // Every way is gone from the first place on, what was looked at carried along.
      const seen = new Map<number, Set<string>>();
      const open: [number, readonly string[]][] = [[1, []]];
      const gone = new Set<string>();
      for (let next = open.pop(); next !== undefined; next = open.pop()) {
        const [number, before] = next;
        const place = key.places[number - 1];
        const slot = demo.data.slots.find(({ id }) => id === demo.features.get(place?.feature as never)?.slot);
        const here = [...new Set([...before, ...(slot === undefined || slot.group === 'core' ? [] : [slot.id])])].sort();
        const trip = `${number} ${here.join()}`;
        if (gone.has(trip)) continue;
        gone.add(trip);
        seen.set(number, new Set([...(seen.get(number) ?? []), ...here]));
        for (const { leads } of place?.ways ?? []) if (leads.kind === 'place') open.push([leads.number, here]);
      }
      let ends = 0;
      for (const { number, ways } of key.places)
        for (const { leads } of ways) {
          if (leads.kind !== 'end') continue;
          ends += leads.ifOwn.length > 0 ? 1 : 0;
          expect(new Set(leads.ifOwn)).toEqual(seen.get(number));
        }
      expect(ends).toBeGreaterThan(10);
      expect(key.cautions[0]).toContain('no words for a ticket');
    }
  });

  test('[D4] numbered from 1, every place but the first led to, no way into nothing, no two places that read the same', () => {
    const key = made(asked);
    expect(key.places.map(({ number }) => number)).toEqual(key.places.map((_, i) => i + 1));
    const led = new Set(key.places.flatMap(({ ways }) => ways.flatMap(({ leads }) => (leads.kind === 'place' ? [leads.number] : []))));
    expect([...led].sort((a, b) => a - b)).toEqual(key.places.slice(1).map(({ number }) => number));
    const texts = key.places.map(({ feature, goOn, ways }) => JSON.stringify([feature, goOn, ways]));
    expect(new Set(texts).size).toBe(texts.length);
    const named = new Set(key.places.flatMap(({ ways }) => ways.flatMap(({ leads }) => (leads.kind === 'end' ? leads.labels : []))));
    expect(named.size).toBe(key.labels.length);
    for (const { ways } of key.places) expect(new Set(ways.map(({ answer }) => answer)).size).toBe(ways.length);
  });

  test('[D4] it never calls itself the best unless all were weighed, and then says its bound', () => {
    const whole = made(asked);
    expect(whole.optimal).toBe(false);
    expect(whole.atLeast).toBeLessThan(whole.expected);
    expect(whole.words[0]).toContain('whether a key between the two exists is not known');
    const few = made({
      ...asked,
      families: demo.data.families.filter(({ id }) => ['petrel', 'northquay'].includes(id)).map(({ id }) => id),
    });
    expect(few.optimal).toBe(true);
    expect(few.atLeast).toBe(few.expected);
  });

  test('[D4] a key made for likelier models serves them no worse: over all models in turn, no more minutes than the key for equal odds', () => {
    const family = demo.data.families.find(({ id }) => id === 'hornbeam');
    const models = demo.data.models.filter((model) => model.family === family?.id);
    const families = models.slice(0, 1).map((model) => model.family);
    const even = made({ ...asked, families });
    const each = models.map(({ id }) => made({ ...asked, families, odds: { [id]: 1000 } as NonNullable<KeyAsked['odds']> }));
    expect([even, ...each].every(({ optimal }) => optimal)).toBe(true);
    // With each model a thousand times likelier in turn, one and the same key takes on average what it takes at equal odds.
    expect(each.reduce((sum, { expected }) => sum + expected / each.length, 0)).toBeLessThanOrEqual(even.expected + 1e-9);
    expect(new Set(each.map(({ expected }) => expected.toFixed(6))).size).toBeGreaterThan(1);
    expect(each[0]?.words).toContain('Models are taken as likely as was asked for.');
  });

  test('[D4] the same atlas gives the same key; no model, no key', () => {
    expect(made(asked)).toEqual(made(asked));
    expect(keyOf(demo, { ...asked, families: [] })).toBeNull();
  });
});
