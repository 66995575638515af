import { describe, expect, test } from 'vitest';
import { familyName, fullName, fullNames } from '../../../reasoner/compile/name-texts.ts';
import { rolesOf } from '../../../reasoner/compile/seats.ts';
import { asId, type CompiledAtlas, compileAtlas } from '../../../reasoner/index.ts';
import { yard, yardAtlas } from './yard-atlas.ts';

const ids = ({ names }: CompiledAtlas) => names.map(({ name }) => String(name.id));
const ruleOf = (atlas: CompiledAtlas, id: string) => {
  const rule = atlas.names.find(({ name }) => name.id === asId(id));
  if (rule === undefined) throw new Error(`there is no ${id}`);
  return rule;
};
/** What a name demands, slot by slot: the letters of the parts that belong, `-` where it demands nothing, and `…` where the list is not whole. */
const demands = (atlas: CompiledAtlas, id: string) => {
  const rule = ruleOf(atlas, id);
  return rule.demands.map((parts, slot) => {
    if (parts === null) return '-';
    const letters = [...parts].map((part) => String(atlas.slots[slot]?.parts[part]?.id).split(' ')[1]).sort();
    return letters.join('') + (rule.open.has(slot) ? '…' : '');
  });
};

describe('the names of one model (N4)', () => {
  const quay = (plateless: readonly string[] = []) =>
    yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a +b ~c', shaft: '~a', front: 'a', plate: 'a' } },
      without: ['elbow'],
      plateless,
    });

  test('[N4] on each rung what belongs; a slot of service parts is no naming slot', () => {
    const atlas = quay();
    // Wheel, shaft, front, back, plate. Of the back nothing is listed.
    expect(demands(atlas, 'model:cod-1')).toEqual(['a', 'a', 'a', '…', 'a']);
    expect(demands(atlas, 'options:cod-1')).toEqual(['abc', 'a', 'a', '…', 'a']);
    expect(demands(atlas, 'service:cod-1')).toEqual(['abc', '-', 'a', '…', 'a']);
    expect(demands(atlas, 'all-parts:cod-1')).toEqual(['abc', '-', 'a', '…', '-']);
    expect(demands(atlas, 'core:cod-1')).toEqual(['abc', '-', '-', '-', '-']);
  });

  test('[N3] [N4] without the plate rule nothing is asked of the plate, and there is no name for all parts but it', () => {
    const atlas = quay(['Quayside']);
    expect(demands(atlas, 'model:cod-1')).toEqual(['a', 'a', 'a', '…', '-']);
    expect(ids(atlas)).not.toContain('all-parts:cod-1');
    expect(atlas.familyParts.map(({ noneOf }) => noneOf.map(({ name }) => name.id))).toEqual([['service:cod-1']]);
    expect(quay().familyParts.map(({ noneOf, rule }) => [noneOf.map(({ name }) => name.id), rule.name.models])).toEqual([
      [['all-parts:cod-1'], []],
    ]);
  });

  test('[N4] nor is there one for a model that lists no plate, or only one of service', () => {
    const listing = (plate: string) =>
      yard({ families: { Cod: 'Quayside' }, models: { 'Cod 1': { wheel: 'a', plate }, 'Cod 2': { wheel: 'b', plate: 'b' } } });
    expect([ids(listing('a')).includes('all-parts:cod-1'), ids(listing('~a')).includes('all-parts:cod-1')]).toEqual([true, false]);
    expect(ids(listing('')).includes('all-parts:cod-1')).toBe(false);
    expect(demands(listing(''), 'model:cod-1').at(-1)).toBe('-');
  });

  test('[A7] a list that is said not to be whole asks only where it makes a name', () => {
    const open = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: '~a', front: 'a +b', openEnded: ['shaft', 'front'] } },
      without: ['elbow', 'back', 'plate'],
    });
    expect(demands(open, 'service:cod-1')).toEqual(['a', '-', 'ab…']);
    expect(demands(open, 'core:cod-1')).toEqual(['a', '-', '-']);
    // Of the one listed in another role than this rung allows it is known that it does not belong.
    expect([...(ruleOf(open, 'model:cod-1').open.get(2) ?? [])]).toEqual([1]);
    expect([...(ruleOf(open, 'options:cod-1').open.get(2) ?? [9])]).toEqual([]);
  });
});

test('[N4] the list of parts stands last, and is of nobody', () => {
  const atlas = yard({ families: { Cod: 'Quayside' }, models: { 'Cod 1': { wheel: 'a' } } });
  expect(atlas.names.at(-1)?.name).toEqual({
    id: 'parts',
    rung: 'parts',
    maker: null,
    text: 'no name: a list of parts',
    models: [],
    family: null,
    housings: [],
  });
  expect(demands(atlas, 'parts')).toEqual(['-', '-', '-', '-', '-', '-']);
});

describe('which parts may sit where (A3)', () => {
  const superseding = (lists: string) =>
    yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: lists }, 'Cod 9': { wheel: 'z' } },
      strays: { wheel: 'b c d' },
      supersedes: { 'wheel b': 'wheel a', 'wheel c': 'wheel a', 'wheel d': 'wheel c' },
      without: ['shaft', 'front', 'back', 'elbow', 'plate'],
    });
  const roles = (lists: string) => {
    const atlas = superseding(lists);
    return Object.fromEntries(
      [...(rolesOf(atlas).get(asId('cod-1'))?.[0] ?? [])].map(([part, role]) => [String(atlas.slots[0]?.parts[part]?.id), role]).sort(),
    );
  };

  test('[A3] a part that takes a listed one’s place, in any number of steps and though others do too, has its role', () => {
    expect(roles('a')).toEqual({ 'wheel a': 'names', 'wheel b': 'names', 'wheel c': 'names', 'wheel d': 'names' });
    expect(roles('~c')).toEqual({ 'wheel c': 'service', 'wheel d': 'service' });
    expect(roles('z')).toEqual({ 'wheel z': 'names' });
  });

  test('[A3] a role of its own beats the one it would have by taking another’s place, and what takes its place has that', () => {
    expect(roles('a ~c')).toEqual({ 'wheel a': 'names', 'wheel b': 'names', 'wheel c': 'service', 'wheel d': 'service' });
    expect(roles('a +d')).toEqual({ 'wheel a': 'names', 'wheel b': 'names', 'wheel c': 'names', 'wheel d': 'option' });
  });

  test('[A3] a part of another slot is an error, never a part that is not known', () => {
    const atlas = yardAtlas({ families: { Cod: 'Quayside' }, models: { 'Cod 1': { wheel: 'a', shaft: 'b' } } });
    const models = atlas.models.map((model) => ({ ...model, allowed: [{ slot: asId('wheel'), part: asId('shaft b'), role: 'names' }] }));
    expect(() => compileAtlas({ ...atlas, models } as typeof atlas)).toThrow(
      'model cod-1 lists shaft b in wheel, where the atlas has no such part',
    );
  });
});

describe('names that speak of several models (N4)', () => {
  const many = yard({
    families: { Cod: 'Quayside', Ling: 'Quayside', Skua: 'Harbour', 'Back Lane': null, 'Side Lane': null },
    models: {
      'Cod 1': { wheel: 'a b', shaft: 'a', front: 'a', plate: 'p' },
      'Cod 2': { wheel: 'b a', shaft: 'a', front: 'b' },
      'Ling 1': { wheel: 'c', shaft: 'a', front: 'c', openEnded: ['front'] },
      'Ling 2': { wheel: 'd', shaft: 'a', front: 'd' },
      'Skua 1': { wheel: 'c', shaft: 'a', front: 's', patternOf: 'Cod 1' },
      'Back Lane 1': { wheel: 'l', shaft: 'l', front: 'l', plate: 'p', patternOf: 'Ling 1' },
      'Back Lane 2': { wheel: 'm', shaft: 'l', patternOf: 'Ling 1' },
      'Side Lane 1': { wheel: 'n', shaft: 'l' },
    },
    without: ['elbow', 'back'],
  });
  const anyOf = (id: string) => ruleOf(many, id).anyOf?.map(({ name }) => String(name.id));

  test('[N4] cores are one name where their lists are the same, in whatever order, and of one maker', () => {
    expect(many.names.filter(({ name }) => name.rung === 'core').map(({ name }) => [name.id, name.models])).toEqual([
      ['core:cod-1', ['cod-1', 'cod-2']],
      ['core:ling-1', ['ling-1']],
      ['core:ling-2', ['ling-2']],
      ['core:skua-1', ['skua-1']],
    ]);
  });

  test('[N4] a family is one of its models, or one of their cores', () => {
    expect(anyOf('family:ling')).toEqual(['service:ling-1', 'service:ling-2']);
    expect(anyOf('family-core:ling')).toEqual(['core:ling-1', 'core:ling-2']);
    expect(anyOf('family-core:cod')).toEqual(['core:cod-1']);
  });

  test('[N4] [N5] a copy is a pattern core, with what it is a pattern of as far as that is known, and a family of them after the original’s', () => {
    const patterns = many.names.filter(({ name }) => name.rung === 'pattern core').map(({ name }) => [name.text, name.maker]);
    expect(patterns).toEqual([
      ['pattern part core (pattern of Quayside Ling 1, no maker’s name)', null],
      ['pattern part core (pattern of Quayside Ling 1, no maker’s name)', null],
      ['pattern part core (pattern of no known model, no maker’s name)', null],
    ]);
    expect(demands(many, 'pattern:back-lane-1')).toEqual(['l', 'l', '-', '-']);
    expect(anyOf('pattern-family:ling')).toEqual(['pattern:back-lane-1', 'pattern:back-lane-2']);
    expect(ruleOf(many, 'pattern-family:ling').name).toMatchObject({ rung: 'pattern family', maker: null, models: [], family: 'ling' });
    // A maker’s own copy is that maker’s model, and of a pattern of nothing known there is no such name.
    expect(ids(many).filter((id) => id.startsWith('pattern-family:'))).toEqual(['pattern-family:ling']);
    expect(ids(many).filter((id) => /lane/.test(id))).toEqual(['pattern:back-lane-1', 'pattern:back-lane-2', 'pattern:side-lane-1']);
  });

  test('[N4] parts of no one model are of a maker’s family, never of a group of copies', () => {
    expect(many.familyParts.map(({ rule }) => String(rule.name.id))).toEqual([
      'family-parts:cod',
      'family-parts:ling',
      'family-parts:skua',
    ]);
  });

  test('[N4] a housing is of whoever’s family lists it, and such a list is open-ended where one of its models’ is', () => {
    const { ofFamily, ofModel } = many.housings;
    const front = (id: string) => {
      const list = ofFamily.get(asId(id))?.[2];
      return list && [[...list.parts].length, list.open];
    };
    expect([front('cod'), front('ling'), front('skua'), front('back-lane')]).toEqual([[2, false], [2, true], [1, false], undefined]);
    expect(ofFamily.get(asId('cod'))?.map((list) => list !== null)).toEqual([false, false, true, false]);
    expect(ofModel.get(asId('ling-2'))?.[2]).toEqual({ parts: new Set([3]), open: false });
    expect(ofModel.has(asId('back-lane-1'))).toBe(false);
  });

  test('[N4] [N5] a name in full has its maker’s before it, and a group’s has none; more than four are cut', () => {
    const models = many.data.models.slice(0, 5);
    expect([1, 2, 4, 5].map((count) => fullNames(many, models.slice(0, count)))).toEqual([
      'Quayside Cod 1',
      'Quayside Cod 1 or Cod 2',
      'Quayside Cod 1, Cod 2, Ling 1 or Ling 2',
      'Quayside Cod 1, Cod 2, Ling 1 or 2 more',
    ]);
    const lane = many.data.models.find(({ id }) => id === asId('side-lane-1'));
    const group = many.data.families.find(({ id }) => id === asId('side-lane'));
    expect([lane && fullName(many, lane), group && familyName(many, group)]).toEqual(['Side Lane 1', 'Side Lane']);
  });
});
