import { describe, expect, test } from 'vitest';
import type { NodeKey } from '../../../db/graph/related-nodes.ts';
import { asId } from '../../../reasoner/index.ts';
import { demoAtlas, demoFolder } from '../seed/demo-atlas.ts';
import { filledStore, freshStore, troubleIn, valueIn } from './kit.ts';
import { expandCode } from './packs.ts';

const node = (kind: NodeKey['kind'], id: string) => ({ kind, id }) as NodeKey;
const read = (steps: readonly { from: { name: string }; how: string; to: { name: string } }[] | null) =>
  steps?.map((step) => `${step.from.name} ${step.how} ${step.to.name}`);

describe('[V3] the tree of the atlas', () => {
  test('holds every maker, family, generation and model of the demo atlas with its years and lines, in the order of the atlas', async () => {
    const store = await freshStore({ expandCode });
    valueIn(await store.packs.load(demoFolder));
    const tree = valueIn(await store.graph.tree());
    expect(tree.makers).toEqual(demoAtlas.makers.map(({ id, name, tradeNames }) => ({ id, name, tradeNames })));
    expect(tree.families).toEqual(demoAtlas.families.map(({ about: _about, source: _source, ...family }) => family));
    expect(tree.generations).toEqual(demoAtlas.generations.map(({ source: _source, ...generation }) => generation));
    expect(tree.models).toEqual(demoAtlas.models.map(({ allowed: _allowed, source: _source, ...model }) => model));
  });

  test('[A3] shared parts name or are options of models in several families; service parts are no tie', async () => {
    const store = await freshStore({ expandCode });
    valueIn(await store.packs.load(demoFolder));
    const { shared } = valueIn(await store.graph.tree());
    // The same from the atlas itself, by hand.
    const slots = new Map(demoAtlas.slots.map(({ id, group }) => [id, group]));
    const families = new Map<string, Set<string>>();
    for (const model of demoAtlas.models) {
      for (const { part, role } of model.allowed) {
        if (role === 'service') continue;
        families.set(part, (families.get(part) ?? new Set<string>()).add(model.family));
      }
    }
    const wide = demoAtlas.parts.filter(({ id, slot }) => (families.get(id)?.size ?? 0) > 1 && slots.get(slot) !== 'plate');
    expect(shared.flatMap(({ parts }) => parts).sort()).toEqual(wide.map(({ id }) => id).sort());
    for (const one of shared) {
      for (const part of one.parts) expect([...(families.get(part) ?? [])].sort()).toEqual([...one.families].sort());
    }
    const sets = shared.map(({ group, families: of }) => `${group} ${[...of].sort().join(' ')}`);
    expect(new Set(sets).size, 'each set of families stands once').toBe(sets.length);
  });

  test('[A3] parts of models come slot by slot with their roles, superseding parts included', async () => {
    const store = await filledStore();
    const [petrel] = valueIn(await store.graph.treeParts([asId('petrel-13')]));
    expect(petrel?.slots.map(({ slot, parts }) => [slot, parts.map(({ id, role }) => `${id} ${role}`)])).toEqual([
      ['compressor-housing', ['ch-petrel names']],
      ['compressor-wheel', ['cw-petrel-13 names', 'cw-petrel-13-b names', 'cw-petrel-13-c names']],
      ['bearing-housing', ['bh-petrel names']],
      ['bearing-set', ['bs-cartridge names']],
    ]);
    expect(troubleIn(await store.graph.treeParts([asId('heron-1')])).code).toBe('not-found');
  });
});

describe('[V3] how any two nodes are related', () => {
  test('a model and a part, two models, a generation: each step reads in its direction', async () => {
    const store = await filledStore();
    const chain = async (a: NodeKey, b: NodeKey) => read(valueIn(await store.graph.relatedNodes(a, b)).steps);
    expect(await chain(node('model', 'tern-4'), node('model', 'tern-9'))).toEqual([
      'Tern 4 is a model of Tern',
      'Tern has the model Tern 9',
    ]);
    expect(await chain(node('part', 'cw-petrel-13-c'), node('model', 'petrel-13'))).toEqual([
      'Petrel 13 compressor wheel, milled took the place of Petrel 13 compressor wheel, later',
      'Petrel 13 compressor wheel, later took the place of Petrel 13 compressor wheel',
      'Petrel 13 compressor wheel sits in Petrel 13 Cartridge',
    ]);
    expect(await chain(node('generation', 'petrel-2'), node('family', 'tern'))).toEqual([
      'second wheels is a generation of Petrel',
      'Petrel succeeds Tern',
    ]);
    expect(await chain(node('model', 'tern-4'), node('model', 'tern-4'))).toEqual([]);
    expect(await chain(node('model', 'quay-13'), node('maker', 'merrowby'))).toEqual([
      'Quay copy of Petrel 13 is built with journal set',
      'journal set bears the name of Merrowby',
    ]);
  });

  test('parts that may be replaced freely tie only what nothing closer ties', async () => {
    const store = await filledStore();
    const steps = read(valueIn(await store.graph.relatedNodes(node('part', 'bs-journal'), node('model', 'tern-4'))).steps);
    // A naming part of the copy, far off over the Petrel; as a service part, close by. The far chain is the closer tie.
    expect(steps?.[0]).toBe('journal set sits in Quay copy of Petrel 13');
    expect(steps?.join('; ')).not.toMatch(/serviced|worn/);
    const plate = valueIn(await store.graph.relatedNodes(node('part', 'np-tern'), node('maker', 'tarnwick')));
    expect(plate.steps?.at(-1)?.how).toMatch(/is made by|bears the name of/);
  });

  test('no chain is longer than the shortest a plain search over the atlas finds', async () => {
    const store = await freshStore({ expandCode });
    valueIn(await store.packs.load(demoFolder));
    const near = new Map<string, Set<string>>();
    const tie = (a: string, b: string) => {
      near.set(a, (near.get(a) ?? new Set<string>()).add(b));
      near.set(b, (near.get(b) ?? new Set<string>()).add(a));
    };
    for (const { id, descendsFrom, succeeds, patternOf } of demoAtlas.families)
      for (const to of [...descendsFrom, ...succeeds, ...patternOf]) tie(`family ${id}`, `family ${to}`);
    for (const { id, family, succeeds } of demoAtlas.generations) {
      tie(`generation ${id}`, `family ${family}`);
      if (succeeds !== null) tie(`generation ${id}`, `generation ${succeeds}`);
    }
    for (const { id, family, generation, patternOf, allowed } of demoAtlas.models) {
      tie(`model ${id}`, `family ${family}`);
      if (generation !== null) tie(`model ${id}`, `generation ${generation}`);
      if (patternOf !== null) tie(`model ${id}`, `model ${patternOf}`);
      for (const { part, role } of allowed) if (role !== 'service') tie(`model ${id}`, `part ${part}`);
    }
    for (const { id, patternOf, supersedes } of demoAtlas.parts)
      for (const to of [patternOf, supersedes]) if (to !== undefined) tie(`part ${id}`, `part ${to}`);
    const distances = (from: string): Map<string, number> => {
      const found = new Map([[from, 0]]);
      for (const at of found.keys()) for (const to of near.get(at) ?? []) if (!found.has(to)) found.set(to, (found.get(at) ?? 0) + 1);
      return found;
    };
    const all = [...near.keys()].sort();
    for (let i = 0; i < all.length; i += 61) {
      const a = all[i] ?? '';
      const far = distances(a);
      for (let k = (i * 7) % 53; k < all.length; k += 97) {
        const b = all[k] ?? '';
        if (a.startsWith('family') && b.startsWith('family')) continue;
        const [keyA, keyB] = [a, b].map((text) => node(text.split(' ')[0] as NodeKey['kind'], text.split(' ')[1] ?? ''));
        if (keyA === undefined || keyB === undefined) throw new Error('two ids');
        const { steps } = valueIn(await store.graph.relatedNodes(keyA, keyB));
        if (far.has(b)) expect(steps?.length, `${a} to ${b}`).toBe(far.get(b));
        for (const [index, step] of (steps ?? []).entries()) if (index > 0) expect(step.from).toEqual(steps?.[index - 1]?.to);
      }
    }
  });
});
