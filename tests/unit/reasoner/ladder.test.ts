import { describe, expect, test } from 'vitest';
import {
  answer,
  asId,
  type CompiledAtlas,
  compileAtlas,
  explain,
  type Name,
  type Observation,
  type Rung,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';
import { ownersOf } from '../../../reasoner/names/ladder.ts';
import { rankOf } from '../../../reasoner/names/rank.ts';
import { blades, littleAtlas, marked, sheetOf } from './little-atlas.ts';
import { type SlotName, seen, yard } from './yard-atlas.ts';

const verdictOn = (atlas: CompiledAtlas, observations: readonly Observation[], rest: Partial<Sheet> = {}): Verdict => {
  const found = answer(atlas, sheetOf(observations, rest));
  if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
  return found;
};
const textsOf = (verdict: Verdict, ids: readonly string[]) =>
  ids.map((id) => verdict.names.find(({ name }) => name.id === asId(id))?.name.text);
/** Names with housings said: each with its status. */
const housed = ({ names }: Verdict) =>
  names.flatMap(({ name, status }) =>
    name.housings.some(({ origin }) => origin.kind !== 'unidentified') ? [`${name.text}: ${status}`] : [],
  );

/** Two makers. Cod 1 and Cod 2 differ in the wheel, Ling 1 in the shaft too; each has housings of its own. */
const pier = yard({
  families: { Cod: 'Quayside', Ling: 'Quayside', Skua: 'Harbour' },
  models: {
    'Cod 1': { wheel: 'a', shaft: 'a', front: 'a', back: 'a', plate: 'a' },
    'Cod 2': { wheel: 'b', shaft: 'a', front: 'b', back: 'b', plate: 'b' },
    'Ling 1': { wheel: 'b', shaft: 'b', front: 'c', back: 'c', plate: 'c' },
    'Skua 1': { wheel: 's', shaft: 's', front: 's', back: 's', plate: 's' },
  },
  without: ['elbow'],
});
const on = (parts: Partial<Record<SlotName, string>>, rest: Partial<Sheet> = {}) => verdictOn(pier, seen(parts), rest);
const codCore = { wheel: 'a', shaft: 'a' };

describe('the order of the ladder (N4)', () => {
  const name = (rung: Rung, ...kinds: Name['housings'][number]['origin']['kind'][]) => nameOf('x', rung, kinds);
  const nameOf = (id: string, rung: Rung, kinds: readonly string[] = []) =>
    ({ id, rung, housings: kinds.map((kind) => ({ slot: 'front', origin: { kind } })) }) as unknown as Name;

  test('[N4] rung by rung; within one fewer housings unidentified, then fewer of another family, then fewer not its own; a family before its core', () => {
    const ladder: Name[] = [
      name('model'),
      name('model with options'),
      name('model with service parts replaced'),
      name('all parts'),
      name('hybrid', 'own', 'own family'),
      name('hybrid', 'own family', 'own family'),
      name('hybrid', 'own', 'family'),
      name('hybrid', 'family', 'own family'),
      name('hybrid', 'family', 'family'),
      name('core', 'own', 'unidentified'),
      name('core', 'own family', 'unidentified'),
      name('core', 'family', 'unidentified'),
      name('core', 'unidentified', 'unidentified'),
      nameOf('family:x', 'family'),
      nameOf('family-core:x', 'family'),
      name('pattern core'),
      name('pattern family'),
      name('family parts'),
      name('parts'),
    ];
    const ranks = ladder.map(rankOf);
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(new Set(ranks).size).toBe(ladder.length);
  });

  test('[N4] the names of a verdict stand in that order', () => {
    const ranks = on({ ...codCore, front: 'c' }).names.map(({ name: each }) => rankOf(each));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
  });
});

describe('what stands open above the honest name (N2, N4)', () => {
  test('[N4] the best level that has any: of a unit nothing was seen of, every model, each once', () => {
    const blank = on({});
    expect(blank.honest).toEqual(['parts']);
    expect(blank.open).toEqual(['model:cod-1', 'model:cod-2', 'model:ling-1', 'model:skua-1']);
  });

  test('[N4] of a model that is open on several rungs, its best rung', () => {
    const options = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: 'a +b ~c' }, 'Cod 2': { wheel: 'b', shaft: 'a' } },
      without: ['elbow', 'front', 'back', 'plate'],
    });
    expect(verdictOn(options, seen({ shaft: 'b' })).open).toEqual(['options:cod-1']);
    expect(verdictOn(options, seen({ shaft: 'a' })).open).toEqual(['model:cod-1', 'model:cod-2']);
    // It is Cod 1 by any of its shafts; which, is still to be seen.
    const wheel = verdictOn(options, seen({ wheel: 'a' }));
    expect([wheel.honest, wheel.open]).toEqual([['options:cod-1'], ['model:cod-1']]);
    const whole = verdictOn(options, seen({ wheel: 'a', shaft: 'a' }));
    expect([whole.honest, whole.open]).toEqual([['model:cod-1'], []]);
  });

  test('[N4] nothing that ranks below the honest name, and of levels only the best', () => {
    const all = on({ ...codCore, front: 'a', back: 'a' });
    expect([all.honest, all.open]).toEqual([['all-parts:cod-1'], ['model:cod-1']]);
    const core = on(codCore);
    expect([core.honest, core.open]).toEqual([['core:cod-1'], ['model:cod-1']]);
    const fronted = on({ ...codCore, front: 'c' });
    expect(textsOf(fronted, fronted.honest)).toEqual(['core of Quayside Cod 1 with a front of Quayside Ling and an unidentified back']);
    const rungOf = (id: string | undefined) => fronted.names.find(({ name }) => name.id === id)?.name.rung;
    // With a housing unidentified it is a core; with none it is a hybrid.
    expect([rungOf(fronted.honest[0]), rungOf(fronted.open[0])]).toEqual(['core', 'hybrid']);
    // Hybrids are open above it, as many as there are families the other housing can be of.
    expect(textsOf(fronted, fronted.open)).toEqual([
      'core of Quayside Cod 1 with a front of Quayside Ling and its own back',
      'core of Quayside Cod 1 with a front of Quayside Ling and another Quayside Cod back',
      'core of Quayside Cod 1 with a front of Quayside Ling and a back of Quayside Ling',
      'core of Quayside Cod 1 with a front of Quayside Ling and a back of Harbour Skua',
    ]);
  });
});

describe('cores with housings of another origin (N4)', () => {
  test('[N4] while a model is possible, only a core that stands is said with its housings, and only with what each can only be', () => {
    expect(housed(on({ shaft: 'a' }))).toEqual([]);
    expect(housed(on({ shaft: 'a', front: 'a' }))).toEqual([]);
    // Its plate is of another: it can still be all the parts of a model.
    expect(housed(on({ wheel: 'a', plate: 'c' }))).toEqual([]);
    expect(housed(on({ ...codCore, front: 'a' }))).toEqual([
      'core of Quayside Cod 1 with its own front and an unidentified back: stands',
      'core of Quayside Cod 1 with another Quayside Cod front and an unidentified back: stands',
    ]);
  });

  test('[N4] one with both its own is its model, and no hybrid', () => {
    const verdict = on({ ...codCore, front: 'a', back: 'a', plate: 'c' });
    expect(textsOf(verdict, verdict.honest)).toEqual(['all parts of Quayside Cod 1, nameplate of another']);
    expect(housed(verdict).filter((text) => text.includes('its own front and its own back'))).toEqual([]);
    expect(housed(verdict)).toContain('core of Quayside Cod 1 with its own front and another Quayside Cod back: stands');
  });

  test('[N4] of its own family, of another of its maker’s, of another maker’s', () => {
    const honest = (front: string, back: string) => {
      const verdict = on({ ...codCore, front, back });
      return textsOf(verdict, verdict.honest);
    };
    expect(honest('b', 'a')).toEqual(['core of Quayside Cod 1 with another Quayside Cod front and its own back']);
    expect(honest('b', 'b')).toEqual(['core of Quayside Cod 1 with another Quayside Cod front and another Quayside Cod back']);
    expect(honest('a', 's')).toEqual(['core of Quayside Cod 1 with its own front and a back of Harbour Skua']);
    expect(honest('c', 's')).toEqual(['core of Quayside Cod 1 with a front of Quayside Ling and a back of Harbour Skua']);
  });

  test('[N4] where no model is possible, every core that is not ruled out is tried with every housing that can be there', () => {
    const verdict = on({ shaft: 'a', front: 'c', back: 's' });
    expect(verdict.names.filter(({ name, status }) => name.rung === 'model' && status !== 'ruled out')).toEqual([]);
    expect(housed(verdict)).toEqual([
      'core of Quayside Cod 1 with a front of Quayside Ling and a back of Harbour Skua: open',
      'core of Quayside Cod 2 with a front of Quayside Ling and a back of Harbour Skua: open',
    ]);
    expect(verdict.namesComplete).toBe(true);
    expect(textsOf(verdict, verdict.open)).toEqual([
      'core of Quayside Cod 1 with a front of Quayside Ling and a back of Harbour Skua',
      'core of Quayside Cod 2 with a front of Quayside Ling and a back of Harbour Skua',
    ]);
  });

  test('[N4] [N2] beside one that stands, one that is open on the same rank is not said to be above it', () => {
    const service = yard({
      families: { Cod: 'Quayside', Ling: 'Quayside', Skua: 'Harbour' },
      models: {
        'Cod 1': { wheel: 'a', shaft: '~x ~y', front: 'a', back: 'a' },
        'Ling 1': { wheel: 'a', shaft: 'y', front: 'c', back: 'c' },
        'Skua 1': { wheel: 's', shaft: 's', front: 's', back: 's' },
        'Skua 2': { wheel: 's', shaft: 's', front: 't', back: 't' },
      },
      without: ['elbow', 'plate'],
    });
    const verdict = verdictOn(service, seen({ wheel: 'a', front: 's', back: 't' }));
    expect(housed(verdict).filter((text) => !text.includes('unidentified'))).toEqual([
      'core of Quayside Cod 1 with a front of Harbour Skua and a back of Harbour Skua: stands',
      'core of Quayside Ling 1 with a front of Harbour Skua and a back of Harbour Skua: open',
    ]);
    expect(textsOf(verdict, verdict.honest)).toEqual(['core of Quayside Cod 1 with a front of Harbour Skua and a back of Harbour Skua']);
    expect(verdict.open).toEqual([]);
  });

  test('[N4] [A7] what the core’s list, or the housings’, lacks the hybrid lacks', () => {
    const lacking = (openEnded: SlotName) => {
      const atlas = yard({
        families: { Cod: 'Quayside', Skua: 'Harbour' },
        models: {
          'Cod 1': { wheel: 'a', shaft: 'a', front: 'a', back: 'a', openEnded: [openEnded] },
          'Cod 2': { wheel: 'a', shaft: 'a', front: 'b', back: 'b' },
          'Skua 1': { wheel: 's', shaft: 's', front: 's', back: 's' },
        },
        strays: { wheel: 't', front: 't' },
        without: ['elbow', 'plate'],
      });
      const verdict = verdictOn(atlas, seen({ shaft: 'a', back: 's' }));
      return verdict.names.flatMap(({ name, lacks }) =>
        name.text.endsWith('with its own front and a back of Harbour Skua') ? [[name.models.length, lacks]] : [],
      );
    };
    expect(lacking('front')).toEqual([[2, ['front']]]);
    expect(lacking('wheel')).toEqual([
      [1, ['wheel']],
      [1, []],
    ]);
  });

  test('[N4] one that stands stands once, whatever was tried besides', () => {
    const verdict = on({ ...codCore, front: 'c', back: 's', plate: 'b' });
    const texts = housed(verdict);
    expect(new Set(texts).size).toBe(texts.length);
    expect(texts.filter((text) => text.endsWith('stands'))).toContain(
      'core of Quayside Cod 1 with a front of Quayside Ling and a back of Harbour Skua: stands',
    );
  });

  test('[N4] what cannot be there by its joints is not among those tried', () => {
    const fitted = yard({
      families: { Cod: 'Quayside', Ling: 'Quayside' },
      models: {
        'Cod 1': { wheel: 'a', shaft: 'a', front: 'a' },
        'Cod 2': { wheel: 'b', shaft: 'a', front: 'b' },
        'Ling 1': { wheel: 'c', shaft: 'c', front: 'c' },
      },
      fits: [{ a: 'wheel', b: 'front', pairs: ['aa', 'bb', 'cc', 'bc'] }],
      without: ['elbow', 'back', 'plate'],
    });
    const verdict = verdictOn(fitted, seen({ shaft: 'a', front: 'c' }));
    expect(housed(verdict)).toEqual(['core of Quayside Cod 2 with a front of Quayside Ling: open']);
  });

  test('[N4] no more than five hundred are formed, and it is said that there are more', () => {
    const words = Array.from({ length: 24 }, (_, i) => `Eel${String.fromCharCode(97 + i)}`);
    const many = (without: readonly SlotName[]) =>
      yard({
        families: { Cod: 'Quayside', ...Object.fromEntries(words.map((word) => [word, 'Harbour'])) },
        models: {
          'Cod 1': { wheel: 'a', shaft: 'a', front: 'z', back: 'z', elbow: 'z' },
          'Cod 2': { wheel: 'b', shaft: 'a', front: 'z', back: 'z', elbow: 'z' },
          ...Object.fromEntries(
            words.map((word, i) => [`${word} 1`, { wheel: 'q', shaft: 'q', front: `f${i}`, back: `k${i}`, elbow: `e${i}` }]),
          ),
        },
        without,
      });
    const few = verdictOn(many(['elbow', 'plate']), seen({ shaft: 'a', front: 'f3' }));
    // Two cores, and behind any of 24 families, another of Cod’s, or their own.
    expect([few.namesComplete, housed(few).length]).toEqual([true, 2 * 26]);
    const all = verdictOn(many(['plate']), seen({ shaft: 'a', front: 'f3' }));
    expect([all.namesComplete, housed(all).length]).toEqual([false, 500]);
  });
});

test('[N4] no more than five thousand are tried, be they ruled out or not', () => {
  /** So many families, each back of which goes with one front alone. */
  const tried = (fronts: number, backs: number) => {
    const words = Array.from(
      { length: Math.max(fronts, backs) },
      (_, i) => `Eel${'abcdefghij'[Math.floor(i / 10)]}${'abcdefghij'[i % 10]}`,
    );
    const atlas = yard({
      families: { Cod: 'Quayside', Skua: 'Harbour', ...Object.fromEntries(words.map((word) => [word, 'Harbour'])) },
      models: {
        'Cod 1': { wheel: 'a', shaft: 'a', front: 'z', back: 'z', elbow: 'z' },
        'Skua 1': { wheel: 's', shaft: 's', elbow: 's' },
        ...Object.fromEntries(
          words.map((word, i) => [
            `${word} 1`,
            { wheel: 'q', shaft: 'q', elbow: 'q', ...(i < fronts ? { front: `f${i}` } : {}), ...(i < backs ? { back: `k${i}` } : {}) },
          ]),
        ),
      },
      strays: { wheel: 'b' },
      fits: [{ a: 'front', b: 'back', pairs: ['zz', 'f0:z', ...words.map((_, i) => `f${i % fronts}:k${i}`)] }],
      without: ['plate'],
    });
    return verdictOn(atlas, seen({ shaft: 'a', elbow: 's' }));
  };
  // Of the fronts and backs each core has two more: its own, and another of its family.
  const all = tried(48, 98);
  expect(all.namesComplete).toBe(true);
  // Behind each of 98 backs one front; before its own or its family’s back f0, its own or its family’s.
  expect(housed(all).map((text) => text.slice(-4))).toEqual(Array.from({ length: 98 + 2 + 4 }, () => 'open'));
  expect(tried(48, 99).namesComplete).toBe(false);
});

describe('housings that are a core’s own (N4)', () => {
  test('[N4] of one and the same model, where there are two of them and the core is of several', () => {
    const owners = yard({
      families: { Cod: 'Quayside', Skua: 'Harbour' },
      models: {
        'Cod 1': { wheel: 'a', shaft: 'a', front: 'a', back: 'a', elbow: 'a' },
        'Cod 2': { wheel: 'a', shaft: 'a', front: 'b', back: 'b', elbow: 'b' },
        'Skua 1': { wheel: 's', shaft: 's', front: 's', back: 's', elbow: 's' },
      },
      without: ['plate'],
    });
    const honest = (front: string, back: string) => {
      const verdict = verdictOn(owners, seen({ ...codCore, front, back, elbow: 's' }));
      const models = verdict.names.filter(({ name }) => verdict.honest.includes(name.id)).map(({ name }) => name.models.length);
      expect(models, `${front} ${back}`).toEqual(verdict.honest.map(() => (front === back ? 1 : 2)));
      return textsOf(verdict, verdict.honest);
    };
    expect(honest('a', 'a')).toEqual(['core of Quayside Cod 1 with its own front and its own back and an elbow of Harbour Skua']);
    expect(honest('b', 'b')).toEqual(['core of Quayside Cod 2 with its own front and its own back and an elbow of Harbour Skua']);
    expect(honest('a', 'b')).toEqual([
      'core of Quayside Cod 1 or Cod 2 with its own front and another Quayside Cod back and an elbow of Harbour Skua',
      'core of Quayside Cod 1 or Cod 2 with another Quayside Cod front and its own back and an elbow of Harbour Skua',
    ]);
  });

  test('[N4] it need not be said whose, of one housing or of one model', () => {
    const [a, b] = [asId<Name['models'][number]>('a'), asId<Name['models'][number]>('b')];
    expect([ownersOf([a, b], 1), ownersOf([a], 2), ownersOf([a, b], 2), ownersOf([a, b], 0)]).toEqual([[null], [null], [a, b], [null]]);
  });
});

describe('a name asked about by its id (N4)', () => {
  const again = (atlas: CompiledAtlas, observations: readonly Observation[], rest: Partial<Sheet> = {}) => {
    const verdict = verdictOn(atlas, observations, rest);
    for (const { name, status } of verdict.names) {
      const found = explain(atlas, sheetOf(observations, rest), name.id);
      expect([found.name.text, found.name.models, found.name.housings, found.status], name.id).toEqual([
        name.text,
        name.models,
        name.housings,
        status,
      ]);
    }
    return verdict.names.map(({ name }) => String(name.id));
  };

  test('[N4] is the one the verdict formed, whatever its housings', () => {
    const ids = again(pier, seen({ ...codCore, front: 'b' }));
    expect(ids).toContain('core:cod-1/front=cod/back=unidentified');
    expect(again(pier, seen({ shaft: 'a', front: 'c', back: 's' }))).toContain('core:cod-2/front=ling/back=skua');
    expect(again(pier, seen({ ...codCore, front: 'a', back: 's' }))).toContain('core:cod-1/front=own/back=skua');
    const owners = yard({
      families: { Cod: 'Quayside', Skua: 'Harbour' },
      models: {
        'Cod 1': { wheel: 'a', shaft: 'a', front: 'a', back: 'a', elbow: 'a' },
        'Cod 2': { wheel: 'a', shaft: 'a', front: 'b', back: 'b', elbow: 'b' },
        'Skua 1': { wheel: 's', shaft: 's', front: 's', back: 's', elbow: 's' },
      },
      without: ['plate'],
    });
    expect(again(owners, seen({ ...codCore, front: 'b', back: 'b', elbow: 's' }))).toContain(
      'core:cod-1/own=cod-2/front=own/back=own/elbow=skua',
    );
    expect(again(pier, seen({ wheel: 'b', shaft: 'a', front: 'a', back: 'a', plate: 'a' }))).toContain('family-parts:cod');
  });

  test('[N4] there is none with a housing of nobody, of a name that is no core, or of a family that has a model left', () => {
    const mixed = seen({ wheel: 'b', shaft: 'a', front: 'a', back: 'a', plate: 'a' });
    expect(() => explain(pier, sheetOf(mixed), asId('family-parts:ling'))).toThrow('no name has the id family-parts:ling');
    const ask = (id: string) => () => explain(pier, sheetOf(seen({ shaft: 'a' })), asId(id));
    for (const id of [
      'core:cod-1/front=nobody/back=own',
      'service:cod-1/front=own/back=own',
      'core:nobody/front=own/back=own',
      'core:cod-1/front=own',
      'family-parts:cod',
      'family-parts:nobody',
      'nobody',
    ])
      expect(ask(id), id).toThrow(`no name has the id ${id}`);
  });
});

describe('what is said of the plate (N4)', () => {
  test('[N4] nothing, where the atlas has none', () => {
    const bare = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a' } },
      without: ['elbow', 'front', 'back', 'shaft', 'plate'],
    });
    expect(verdictOn(bare, seen({ wheel: 'a' })).names.map(({ name }) => String(name.id))).not.toContain('all-parts:cod-1');
  });

  test('[N4] an option keeps the model open on its better rung', () => {
    const little = verdictOn(compileAtlas(littleAtlas), [blades(8), marked('plate.number', '4-40')]);
    expect([little.honest, little.open]).toEqual([['options:cod-1'], ['model:cod-1']]);
  });
});
