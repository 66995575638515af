import { describe, expect, test } from 'vitest';
import { answer, asId, type CompiledAtlas, type Sheet } from '../../../reasoner/index.ts';
import { partOf, quayBut } from '../plate/other-quays.ts';
import { number, statusOf, tradeName, verdictOn } from '../plate/quay-atlas.ts';
import { sheetOf } from './little-atlas.ts';
import { type SlotName, seen, yard } from './yard-atlas.ts';

const namesOf = (atlas: CompiledAtlas, parts: Partial<Record<SlotName, string>>, rest: Partial<Sheet> = {}) => {
  const found = answer(atlas, sheetOf(seen(parts), rest), { explain: 'none' });
  if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
  return (id: string) => {
    const name = found.names.find((each) => each.name.id === asId(id));
    return name && { status: name.status, unsettled: name.unsettled.map(String), lacks: name.lacks.map(String) };
  };
};
const stands = { status: 'stands', unsettled: [], lacks: [] };
const out = { status: 'ruled out', unsettled: [], lacks: [] };
const open = (unsettled: string[], lacks: string[] = []) => ({ status: 'open', unsettled, lacks });

describe('what a joint says of a name (N1)', () => {
  const two = { without: ['shaft', 'back', 'elbow', 'plate'] as const };
  test('[N1] parts of it remain in every slot, and no two of them go together: ruled out', () => {
    const atlas = yard({
      ...two,
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', front: 'b' }, 'Cod 2': { wheel: 'b', front: 'a' }, 'Cod 3': { wheel: 'a', front: 'a' } },
      fits: [{ a: 'wheel', b: 'front', pairs: ['aa', 'bb'] }],
    });
    const name = namesOf(atlas, {});
    expect(['service:cod-1', 'service:cod-2', 'service:cod-3'].map(name)).toEqual([out, out, open(['wheel', 'front'])]);
  });

  test('[N1] nor by any part of a slot it asks nothing of; an empty or doubtful slot is no bar', () => {
    const atlas = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: '~x ~y', front: 'b' }, 'Cod 2': { wheel: 'b', shaft: '~x ~y', front: 'a' } },
      fits: [
        { a: 'wheel', b: 'shaft', pairs: ['ax', 'by'] },
        { a: 'shaft', b: 'front', pairs: ['xa', 'yb'] },
      ],
      without: ['back', 'elbow', 'plate'],
    });
    expect(namesOf(atlas, {})('service:cod-1')).toEqual(out);
    expect(namesOf(atlas, {}, { absent: [asId('shaft')] })('service:cod-1')).toEqual(open(['wheel', 'front']));
  });
});

describe('lists that are not whole (A7)', () => {
  /** The list of Cod 1’s front is open-ended: `a` makes its name, `b` is an option, `c` is of Cod 2; `d` is nobody’s. */
  const loose = {
    families: { Cod: 'Quayside' },
    models: {
      'Cod 1': { wheel: 'a', front: 'a +b', openEnded: ['front' as const] },
      'Cod 2': { wheel: 'b', front: 'c' },
    },
    strays: { front: 'd' },
    without: ['shaft', 'back', 'elbow', 'plate'] as const,
  };
  test('[N2] [A7] of what belongs, what does not and what is not known, any two leave a slot unsettled; the last is what the atlas lacks', () => {
    const fit = (fronts: string) => {
      const atlas = yard({ ...loose, fits: [{ a: 'wheel', b: 'front', pairs: [...fronts].map((letter) => `a${letter}`) }] });
      return namesOf(atlas, { wheel: 'a' })('model:cod-1');
    };
    expect(['a', 'b', 'd', 'ab', 'ad', 'bd', 'abd'].map(fit)).toEqual([
      stands,
      out,
      open([], ['front']),
      open(['front']),
      open(['front'], ['front']),
      open(['front'], ['front']),
      open(['front'], ['front']),
    ]);
  });

  test('[N1] [A7] a part of which it is not known makes no choice where it does not fit', () => {
    const atlas = yard({
      ...loose,
      models: { ...loose.models, 'Cod 3': { wheel: 'c', front: 'c' } },
      fits: [{ a: 'wheel', b: 'front', pairs: ['ab', 'cd', 'bc'] }],
    });
    // Cod 1’s wheel takes only the option, which this rung does not allow.
    expect(namesOf(atlas, {})('model:cod-1')).toEqual(out);
    expect(namesOf(atlas, {})('options:cod-1')?.status).toBe('open');
  });
});

describe('a family (N4)', () => {
  /** Cod 1 is named by its wheel, Cod 2 by its shaft: of the core both together ask nothing. */
  const atlas = yard({
    families: { Cod: 'Quayside' },
    models: { 'Cod 1': { wheel: 'a', shaft: '~x ~y' }, 'Cod 2': { wheel: '~a ~b', shaft: 'y' } },
    strays: { wheel: 'c', shaft: 'z' },
    without: ['front', 'back', 'elbow', 'plate'],
  });
  test('[N3] [N4] stands with one of its models though of the core they ask nothing in common; else it is open for what they are', () => {
    expect(namesOf(atlas, { wheel: 'a', shaft: 'x' })('family:cod')).toEqual(stands);
    expect(namesOf(atlas, {})('family:cod')).toEqual(open(['wheel', 'shaft']));
    expect(namesOf(atlas, { wheel: 'b' })('family:cod')).toEqual(open(['shaft']));
    expect(namesOf(atlas, { wheel: 'c', shaft: 'z' })('family:cod')).toEqual(out);
    // One of them stands, and the other is open.
    expect(namesOf(atlas, { wheel: 'a' })('service:cod-2')?.status).toBe('open');
    expect(namesOf(atlas, { wheel: 'a' })('family:cod')).toEqual(stands);
  });

  test('[N2] [N4] the slots it is open for stand in their order, whichever model they are of', () => {
    const turned = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: '~a ~b', shaft: 'y' }, 'Cod 2': { wheel: 'a', shaft: '~x ~y' } },
      strays: { wheel: 'c', shaft: 'z' },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    const blank = namesOf(turned, {})('family:cod');
    expect(blank).toEqual(open(['wheel', 'shaft']));
  });

  test('[N2] [N4] what its models lack it lacks', () => {
    const lacking = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: '~x', openEnded: ['wheel'] }, 'Cod 2': { wheel: '~a', shaft: 'y', openEnded: ['shaft'] } },
      strays: { wheel: 'c', shaft: 'z' },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    expect(namesOf(lacking, { wheel: 'c', shaft: 'z' })('family:cod')).toEqual(open([], ['wheel', 'shaft']));
  });

  test('[N2] [N4] it is open while one slot is unsettled and of another the atlas lacks what would settle it', () => {
    const mixed = yard({
      families: { Cod: 'Quayside' },
      models: {
        'Cod 1': { wheel: 'a', shaft: 'a', openEnded: ['wheel'] },
        'Cod 2': { wheel: 'a', shaft: 'b', openEnded: ['wheel'] },
        'Cod 3': { wheel: 'a', shaft: 'c', openEnded: ['wheel'] },
      },
      strays: { wheel: 'd', shaft: 'e' },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    expect(namesOf(mixed, { wheel: 'd' })('family:cod')).toEqual(open(['shaft'], ['wheel']));
  });
});

describe('what never stands (N3)', () => {
  test('[N3] a name that asks something of a housing and nothing of the core; the list of parts always does', () => {
    const atlas = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: '~a', front: 'a' }, 'Cod 2': { wheel: '~a', front: 'b' } },
      without: ['shaft', 'back', 'elbow', 'plate'],
    });
    const name = namesOf(atlas, { wheel: 'a', front: 'a' });
    expect([name('service:cod-1'), name('service:cod-2'), name('parts')]).toEqual([open([]), out, stands]);
    // The model on its highest rung asks for the wheel too.
    expect(name('model:cod-1')).toEqual(stands);
  });
});

describe('a plate whose number is not listed (O5)', () => {
  /** Of Mole’s plate nobody knows the number: what is stamped may be that, or a number of Quayside’s that is not listed. */
  const mole = quayBut({
    parts: { 'plate/mole': { numbers: [], facts: { ...partOf('plate/mole').facts, 'plate.number': { kind: 'not known' } } as never } },
  });
  const on = (parts: readonly ReturnType<typeof number>[]) => {
    const found = answer(mole, sheetOf(parts), { explain: 'none' });
    if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
    return (id: string) => found.names.find((each) => each.name.id === asId(id));
  };
  const stamped = number('P 777-5/1');

  test('[O5] [N2] beside a listed plate that agrees is one candidate more: not of that one’s model, and not known of its own', () => {
    const name = on([stamped]);
    expect(name('service:mole-1')).toMatchObject({ status: 'open', lacks: [] });
    expect(name('service:mole-1')?.unsettled).toContain('plate');
    expect(name('service:cod-1')).toMatchObject({ status: 'open' });
    expect(name('service:cod-1')?.unsettled).toContain('plate');
    expect(name('service:cod-1')?.lacks).toEqual(['plate']);
  });

  test('[O5] [N4] and keeps the plate from being confirmed', () => {
    expect(on([stamped])('all-parts:mole-1')?.name.text).toBe('all parts of Harbour Mole 1, nameplate not confirmed');
    expect(on([stamped])('all-parts:far-1')?.name.text).toBe('all parts of Outland Far 1, nameplate of another');
  });

  test('[O5] [N4] a family may have it where one of its models may', () => {
    const verdict = verdictOn([number('P 100-9/2'), tradeName('Quayside')]);
    expect(['cod-1', 'cod-2'].map((model) => statusOf(verdict, model))).toEqual(['open', 'ruled out']);
    expect(verdict.names.find((each) => each.name.id === asId('family:cod'))).toMatchObject({ status: 'open', lacks: ['plate'] });
  });
});
