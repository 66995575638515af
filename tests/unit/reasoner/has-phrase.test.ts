import { describe, expect, test } from 'vitest';
import { asId, type Fact, type Feature, type Seen } from '../../../reasoner/index.ts';
import { hasOneOf, hasPhrase } from '../../../reasoner/words/has-phrase.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';

const feature = (name: string, more: Partial<Feature> & Pick<Feature, 'kind'>): Feature => ({
  id: asId(name),
  slot: asId('shaft'),
  name,
  stage: asId('as-received'),
  minutes: 1,
  ...more,
});
const seen = (of: Feature, value: Seen): string => hasPhrase(of, { value, sure: { kind: 'seen' } });

const blades = feature('blade count', { kind: 'count', unit: 'blades' });
const year = feature('year of make', { kind: 'count', unit: 'year' });
const bore = feature('inner diameter', { kind: 'measure', unit: 'mm' });
const name = feature('cast name', { kind: 'mark' });
const hand = feature('stub thread hand', {
  kind: 'choice',
  options: [
    { id: 'left', name: 'left-hand', said: 'a left-hand stub thread' },
    { id: 'right', name: 'right-hand', said: 'a right-hand stub thread' },
  ],
});
const metal = feature('metal', { kind: 'choice', options: [{ id: 'iron', name: 'grey iron' }] });

describe('[K2] what a part has is said as the trade says it', () => {
  test('[K2] counts: none of it is "no", one is one, two beside each other are doubt', () => {
    expect(seen(blades, { kind: 'count', from: 0, to: 0 })).toBe('no blades');
    expect(seen(blades, { kind: 'count', from: 1, to: 1 })).toBe('1 blade');
    expect(seen(blades, { kind: 'count', from: 10, to: 11 })).toBe('10 or 11 blades');
    expect(seen(blades, { kind: 'count', from: 10, to: 12 })).toBe('10 to 12 blades');
    expect(seen(year, { kind: 'count', from: 1996, to: 1996 })).toBe('the year of make 1996');
  });

  test('[K2] a size has its article and its ±', () => {
    expect(hasPhrase(bore, { value: { kind: 'measure', value: 20.4 }, sure: { kind: 'measured', u: 0.025 } })).toBe(
      'an inner diameter of 20.4 mm (±0.05)',
    );
  });

  test('[K2] letters are called by what they are, and none are none of that', () => {
    expect(seen(name, { kind: 'mark', text: 'LISLE' })).toBe('the cast name “LISLE”');
    expect(seen(name, { kind: 'mark', text: null })).toBe('no cast name');
    const stamped = feature('serial number, as stamped', { kind: 'mark' });
    expect(seen(stamped, { kind: 'mark', text: 'L 1' })).toBe('the serial number, as stamped, “L 1”');
  });

  test('[K2] an option is said as the atlas says it, else by its name', () => {
    expect(seen(hand, { kind: 'choice', option: 'left' })).toBe('a left-hand stub thread');
    expect(seen(metal, { kind: 'choice', option: 'iron' })).toBe('grey iron as its metal');
  });

  test('[K2] one thing has an article, several and what is had of something have none', () => {
    const has = (what: string, present: boolean) => seen(feature(what, { kind: 'presence' }), { kind: 'presence', present });
    expect(has('wastegate', true)).toBe('a wastegate');
    expect(has('wastegate', false)).toBe('no wastegate');
    expect(has('water ports', true)).toBe('water ports');
    expect(has('repeatable readings on the rig', true)).toBe('repeatable readings on the rig');
    expect(has('need of water', true)).toBe('need of water');
  });

  test('[K2] what the atlas says of several parts stands in one phrase', () => {
    const counts = (...ranges: readonly (readonly [number, number])[]) => ranges.map(([from, to]): Fact => ({ kind: 'count', from, to }));
    expect(hasOneOf(blades, counts([12, 12], [10, 10], [12, 12]))).toBe('10 or 12 blades');
    expect(hasOneOf(blades, counts([0, 0]))).toBe('no blades');
    expect(hasOneOf(year, counts([1996, 2009]))).toBe('the year of make 1996 to 2009');
    expect(hasOneOf(bore, [{ kind: 'measure', nominal: 20, lower: -0.1, upper: 0.1 }, { kind: 'not known' }])).toBe(
      'an inner diameter of 19.9 to 20.1 mm',
    );
    expect(hasOneOf(hand, [{ kind: 'choice', anyOf: ['left', 'right'] }])).toBe('a left-hand stub thread or a right-hand stub thread');
    expect(hasOneOf(name, [{ kind: 'mark', anyOf: ['LISLE'], blank: true }])).toBe('the cast name “LISLE” or none');
    expect(hasOneOf(name, [{ kind: 'mark', anyOf: [], blank: true }])).toBe('no cast name');
    expect(hasOneOf(bore, [{ kind: 'not known' }])).toBe('an inner diameter that is not known');
  });

  test('[K2] in the demo atlas every choice but of metals is said so, and no two options of a feature alike', () => {
    const choices = demoAtlas.features.filter(({ kind, name: called }) => kind === 'choice' && called !== 'metal');
    expect(choices.length).toBeGreaterThan(40);
    for (const { id, options = [] } of choices) {
      const said = options.map((option) => option.said);
      expect(said, id).not.toContain(undefined);
      expect(new Set(said).size, id).toBe(said.length);
    }
  });
});
