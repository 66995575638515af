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
import { sayCell, saysApart } from '../../../renderer/edit/sayCell.ts';
import { pathOf, sayFault, sayFaultElsewhere, sayFaultOf } from '../../../renderer/edit/sayFault.ts';
import { saySort } from '../../../renderer/edit/saySort.ts';
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

  test('[E2] a line is called by what one of its list is, and what somebody typed as it was typed', () => {
    expect(fieldWords('joints', ['rules', 2]).label).toBe('Rule');
    expect(fieldWords('makers', ['tradeNames', '*']).label).toBe('Trade name');
    expect(fieldWords('makers', ['numbering', 0, 'pieces', 1, 'codes', 'SAIL']).label).toBe('SAIL');
    expect(fieldWords('makers', ['grammar', 'tokens', 0, 'promises', 0, 'of', 'Petrel', 1]).label).toBe('Petrel');
    const fault = { edit: 0, list: 'makers', id: 'm', found: '""', expected: 'a text', sentence: '' } as const;
    const said = (field: string) => sayFaultOf({} as Words, { ...fault, field });
    expect(said('tradeNames[1].from')).toBe('Trade name 2, From: This is still to be given.');
    expect(said('numbering[0].pieces[2].letters')).toBe('Pattern of numbers 1, Piece 3, Letters in turn: This is still to be given.');
    expect(said('name')).toBe('Name: This is still to be given.');
  });

  test('[E2] what rests on an entry that would go is told by name, and what it would leave behind', () => {
    const fault = {
      edit: null,
      list: 'models',
      id: 'tern-4',
      field: 'family',
      found: '"tern"',
      expected: 'the id of a family',
      sentence: '',
    };
    expect(sayFaultElsewhere(fault, 'Tern 4', 'Tern')).toBe('Model “Tern 4”, Family still refers to “Tern”.');
    expect(sayFaultElsewhere(fault, 'Tern 4', '')).toBe('Model “Tern 4”, Family: Found "tern", expected the id of a family.');
    const sits = { ...fault, list: 'allowed', field: 'wheel-1' };
    expect(sayFaultElsewhere(sits, 'Tern 4, wheel one', 'wheel one')).toBe('“wheel one” may still sit in Tern 4: take it out there first.');
  });

  test('[E2] what is counted of a change is called as its list and its form are', () => {
    expect(['parts.facts', 'operations', 'makers.tradeNames', 'allowed', 'rates.parts'].map(saySort)).toEqual([
      'what is known of parts',
      'works of the shop',
      'makers, traded as',
      'parts that may sit in models',
      'rates, prices of parts',
    ]);
  });

  test('[E2] a cell says what it holds as its form would: fields by their labels, ids by names, and no id beside a name', () => {
    const words = {
      vocabulary: { ports: [{ id: 'back-face', name: 'recess for the core' }], sources: [] },
      feature: (id: string) =>
        id === 'shaft-bore'
          ? { name: 'bore' }
          : id === 'kind'
            ? { name: 'kind of bearing', options: [{ id: 'j', name: 'journal set' }] }
            : undefined,
      slot: () => undefined,
    } as unknown as Words;
    const says = (list: string, field: string | null, said: unknown, line: string | null = null) =>
      sayCell(words, { list, field, line } as never, said as never);
    expect(
      says('joints', 'rules', [
        { spigot: 'shaft-bore', recess: 'hub', kind: 'pilot', min: 0.02, max: 0.16 },
        { kind: 'thread', external: { size: 'shaft-bore', hand: 'hand' } },
      ]),
    ).toBe('pilot, Spigot: bore, Recess: hub, At least: 0.02, At most: 0.16; thread, External thread (Size: bore, Hand: hand)');
    expect(says('makers', 'tradeNames', [{ id: 'x', name: 'Lisle', from: 1951, to: null }])).toBe('Name: Lisle, From: 1951, To: not known');
    expect(says('operations', 'takes', [{ feature: 'kind', anyOf: ['j'] }])).toBe('Feature: kind of bearing, Any of: journal set');
    expect(
      says('makers', 'grammar', {
        tokens: [
          { id: 'size', name: 'size', before: ' ', optional: false },
          { id: 'x', name: 'y', before: '' },
        ],
      }),
    ).toBe(
      'The words of a name: What it is called: size, What stands before it: a space, A name may do without it: no; What it is called: y, What stands before it: nothing',
    );
    expect(says('joints', 'a', 'back-face')).toBe('recess for the core');
    expect(says('slots', 'alsoCalled', ['comp housing', 'cover'])).toBe('comp housing, cover');
    expect(says('rates', 'parts', { price: 150 }, 'some-part')).toBe('150');
    expect([says('parts', null, null), says('parts', null, { id: 'x' })]).toEqual(['no', 'yes']);
  });

  test('[E2] of a list that is altered only what is otherwise is said, and all of it where only its order is', () => {
    const [one, other, third] = [{ min: 1 }, { min: 2 }, { min: 3 }];
    expect(saysApart([one, other], [one, third])).toEqual([other]);
    expect(saysApart([one], [one, third])).toEqual([]);
    expect(saysApart([one, other], [other, one])).toEqual([one, other]);
    expect(saysApart(['a', 'b'], ['a'])).toEqual(['a', 'b']);
    expect(saysApart({ tokens: [one, other], demands: [] }, { tokens: [one], demands: [] })).toEqual({ tokens: [other] });
    expect(saysApart(null, [one])).toBeNull();
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
