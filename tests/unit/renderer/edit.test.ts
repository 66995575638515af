import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { everyList } from '../../../db/atlas/lists.ts';
import type { Shape } from '../../../electron/bridge/edit-calls.ts';
import { idFrom } from '../../../reasoner/plain/id-from.ts';
import type { Words } from '../../../renderer/bridge/words.ts';
import { choicesAt } from '../../../renderer/edit/choicesAt.ts';
import { editsOf } from '../../../renderer/edit/editsOf.ts';
import { fieldWords, listWords } from '../../../renderer/edit/fieldWords.ts';
import { isAt, pathText, withField } from '../../../renderer/edit/json.ts';
import { pathOf, sayFault } from '../../../renderer/edit/sayFault.ts';
import { blankFields, blankOf, givenAs, known } from '../../../renderer/edit/shapes.ts';

const shapeOf = (schema: z.ZodType): Shape => z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }) as Shape;

/** Every shape in a shape, with the way to it. */
const within = (shape: Shape, path: readonly (string | number)[] = []): readonly (readonly [Shape, readonly (string | number)[]])[] => {
  const { shape: inner } = known(shape);
  const given = givenAs(inner);
  const deeper =
    given.as === 'fields'
      ? Object.entries(given.shape.properties ?? {}).flatMap(([field, of]) => within(of, [...path, field]))
      : given.as === 'kinds' || given.as === 'shapes'
        ? [...given.shapes.values()].flatMap((one) => within(one, path))
        : given.as === 'list'
          ? within(given.of, [...path, 0])
          : given.as === 'table'
            ? within(given.of, [...path, 'any'])
            : [];
  return [[inner, path], ...deeper];
};

describe('[E2] a form is made from the schema of its list', () => {
  test('[E2] every shape of every list is one that a form has a field for, and every list has a name', () => {
    for (const { name, schema } of everyList) {
      expect(listWords[name], name).toBeDefined();
      for (const [shape, path] of within(shapeOf(schema))) {
        const { as } = givenAs(shape);
        // What has no kind of its own is taken for a text: only what is one may be.
        if (as === 'text') expect(shape.type ?? shape.const, `${name} ${path.join('.')}`).toBeTypeOf('string');
        if (as === 'shapes') expect(path.at(-1)).toBe('best');
      }
    }
  });

  test('[E2] a new entry says nothing that nobody has said: no figure is nought, and what may be not known is', () => {
    const model = everyList.find(({ name }) => name === 'models');
    const blank = blankFields(shapeOf(model?.schema as z.ZodType));
    expect(blank).toEqual({ id: '', name: '', family: '', generation: null, patternOf: null, from: null, to: null, source: '' });
    const stage = everyList.find(({ name }) => name === 'stages');
    expect(blankFields(shapeOf(stage?.schema as z.ZodType))).toEqual({ id: '', name: '', after: [] });
  });

  test('[E2] another kind keeps what both kinds have, and takes on nothing else', () => {
    const shape = shapeOf(
      z.discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('word'), words: z.array(z.string()).min(1) }),
        z.strictObject({ kind: z.literal('number'), from: z.int(), to: z.int() }),
        z.strictObject({ kind: z.literal('numeral'), from: z.int(), to: z.int() }),
        z.strictObject({ kind: z.literal('sign'), from: z.string(), to: z.int() }),
      ]),
    );
    const given = givenAs(shape);
    const shapes = given.as === 'kinds' ? given.shapes : new Map();
    expect(blankOf(shape)).toEqual({ kind: 'word', words: [''] });
    expect(blankFields(shapes.get('numeral'), { kind: 'number', from: 1, to: 9 })).toEqual({ kind: 'numeral', from: 1, to: 9 });
    expect(blankFields(shapes.get('sign'), { kind: 'number', from: 1, to: 9 })).toEqual({ kind: 'sign', from: '', to: 9 });
    expect(blankFields(shapes.get('number'), { kind: 'word', words: ['Tern'] })).toEqual({ kind: 'number' });
  });

  test('[E2] nothing, not known and nought are three things', () => {
    expect(withField({ a: 0, b: 1 }, 'a', undefined)).toEqual({ b: 1 });
    expect(withField({ a: 0, b: 1 }, 'a', null)).toEqual({ a: null, b: 1 });
    expect(withField({ b: 1 }, 'a', 0)).toEqual({ b: 1, a: 0 });
  });

  test('[E2] a fault finds its field, and a field its words', () => {
    expect(pathText(['numbering', 0, 'pieces', 2, 'text'])).toBe('numbering[0].pieces[2].text');
    expect(pathOf('numbering[0].pieces[2].text')).toEqual(['numbering', 0, 'pieces', 2, 'text']);
    expect(pathOf('facts.bore.a')).toEqual(['facts', 'bore.a']);
    expect(sayFault({ found: '""', expected: 'a text' })).toBe('This is still to be given.');
    expect(sayFault({ found: '"x"', expected: 'a number' })).toBe('Found "x", expected a number.');
    expect(isAt(['rules', 3, 'pairs', 0, 'wheel'], ['rules', '*', 'pairs', '*', 'wheel'])).toBe(true);
    expect(isAt(['rules', 3, 'pairs'], ['rules', '*', 'pairs', '*'])).toBe(false);
    expect(fieldWords('makers', ['grammar', 'tokens', 4, 'before']).label).toBe('What stands before it');
    expect(fieldWords('makers', ['grammar', 'tokens', 4, 'oddLengths']).label).toBe('Odd lengths');
  });

  test('[E2] options and words of a grammar are picked by name, of the feature or the entry they belong to', () => {
    const words = {
      feature: (id: string) => (id === 'metal' ? { options: [{ id: 'iron', name: 'cast iron' }] } : undefined),
    } as unknown as Words;
    const work = {
      takes: [
        { feature: 'bore', anyOf: ['iron'] },
        { feature: 'metal', anyOf: ['iron'] },
      ],
    };
    expect(choicesAt(words, 'operations', work, ['takes', 1, 'anyOf', 0])).toEqual([{ id: 'iron', name: 'cast iron' }]);
    expect(choicesAt(words, 'operations', work, ['takes', 0, 'anyOf', 0])).toBeNull();
    const promise = { feature: 'metal', kind: 'choice', of: { C: ['iron'] } };
    const maker = {
      grammar: {
        tokens: [
          { id: 'bird', name: 'family', promises: [promise] },
          { id: 'size', name: '' },
        ],
      },
    };
    expect(choicesAt(words, 'makers', maker, ['grammar', 'tokens', 0, 'promises', 0, 'of', 'C', 0])).toEqual([
      { id: 'iron', name: 'cast iron' },
    ]);
    expect(choicesAt(words, 'makers', maker, ['grammar', 'demands', 0, 'then', 'token'])).toEqual([
      { id: 'bird', name: 'family' },
      { id: 'size', name: 'size' },
    ]);
    expect(choicesAt(words, 'makers', maker, ['grammar', 'tokens', 0, 'name'])).toBeNull();
  });

  test('[E2] an id is made of the name, in letters and figures of any script', () => {
    expect(idFrom('  Skua 9, later: Ø 51,5 ')).toBe('skua-9-later-ø-51-5');
    expect(idFrom('Éole')).toBe('eole');
    expect(idFrom('…')).toBe('');
  });
});

describe('[E3] what is typed is edits', () => {
  const entry = { id: 'tern-4', name: 'Tern 4' };
  const sits = [
    { slot: 'shaft', part: 'a', role: 'names' },
    { slot: 'shaft', part: 'b', role: 'option' },
  ] as const;

  test('[E3] what says what it said before is no edit, whatever the order of its fields', () => {
    expect(editsOf('models', { entry, sits }, { entry: { name: 'Tern 4', id: 'tern-4' }, sits: [...sits].reverse() })).toEqual([]);
  });

  test('[E3] a new entry is one, and so are a part that comes, one that goes, and another role', () => {
    expect(editsOf('models', null, { entry, sits: [] })).toEqual([{ list: 'models', put: entry }]);
    const now = [
      { slot: 'shaft', part: 'b', role: 'service' },
      { slot: 'shaft', part: 'c', role: 'names' },
    ] as const;
    expect(editsOf('models', { entry, sits }, { entry, sits: now })).toEqual([
      { disallow: { model: 'tern-4', part: 'a' } },
      { allow: { model: 'tern-4', part: 'b', slot: 'shaft', role: 'service' } },
      { allow: { model: 'tern-4', part: 'c', slot: 'shaft', role: 'names' } },
    ]);
  });
});
