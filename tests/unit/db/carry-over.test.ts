import { describe, expect, test } from 'vitest';
import type { Named, Values } from '../../../db/atlas/list.ts';
import { type Entries, type ListName, listsAndParts } from '../../../db/atlas/lists.ts';
import { type Allowance, emptyAtlas } from '../../../db/atlas/pack.ts';
import { entriesOf } from '../../../db/changes/id-places.ts';
import { manyEdits } from '../../../db/changes/many-edits.ts';
import { mergeEdits } from '../../../db/changes/merge-edits.ts';
import { numberEdits } from '../../../db/changes/number-edits.ts';
import { renameEdits } from '../../../db/changes/rename-edits.ts';
import type { Edit, EditedList } from '../../../db/edits/seen.ts';
import { crossCheckFiles } from '../../../db/packs/cross-check.ts';
import { lookupsFor } from '../../../db/packs/lookups.ts';
import { Faults } from '../../../db/read/faults.ts';
import type { Atlas, FeatureId, Part } from '../../../reasoner/index.ts';
import { demoAtlas as demo } from '../seed/demo-atlas.ts';

/** With terms called apart from the slots and options they explain. */
const demoAtlas: Atlas = {
  ...demo,
  terms: demo.terms?.map((term) => ({
    ...term,
    id: `term-${term.id}`,
    ...(term.near === undefined ? {} : { near: term.near.map((id) => `term-${id}`) }),
  })) as never,
};

type Held = Map<string, Map<string, unknown>>;

/** The edits made one after the other, of plain maps. */
const made = (atlas: Atlas, edits: readonly Edit[]): Held => {
  const held: Held = new Map(listsAndParts.map(({ name }) => [name, new Map(entriesOf(atlas, name).map((entry) => [entry.id, entry]))]));
  const allowed = new Map<string, unknown>(
    atlas.models.flatMap((model) => model.allowed.map((line) => [`${model.id} ${line.part}`, { model: model.id, ...line }] as const)),
  );
  held.set('allowed', allowed);
  for (const edit of edits) {
    if ('allow' in edit) allowed.set(`${edit.allow.model} ${edit.allow.part}`, edit.allow);
    else if ('disallow' in edit) expect(allowed.delete(`${edit.disallow.model} ${edit.disallow.part}`)).toBe(true);
    else if ('put' in edit) held.get(edit.list)?.set(edit.put.id as string, edit.put);
    else expect(held.get(edit.list)?.delete(edit.drop)).toBe(true);
  }
  return held;
};

/** How often a text stands anywhere in JSON, as a value or as a key. */
const times = (held: Held, text: string): number => written(held).split(JSON.stringify(text)).length - 1;
const written = (held: Held): string => JSON.stringify([...held.values()].map((entries) => [...entries.values()]));

/** What the check of packs finds in it: references that lead nowhere, kinds that do not agree, circles. */
const faultsOf = (held: Held): readonly string[] => {
  const files = Object.fromEntries([...held].map(([name, entries]) => [name, [...entries.values()]])) as unknown as Entries;
  const faults = new Faults(20);
  const place = (list: ListName, path: readonly PropertyKey[]) => ({ file: list, column: path.join('.') });
  crossCheckFiles(files, emptyAtlas, lookupsFor(files, emptyAtlas, faults), place, faults);
  return faults.found.map(({ file, column, found, expected }) => `${file} ${column}: ${found}, ${expected}`);
};

/** Texts that stand for other things than the entry called so: ids of two lists, kinds, and fields. */
const ambiguous = ((): ReadonlySet<string> => {
  const ids = listsAndParts.flatMap(({ name }) => entriesOf(demoAtlas, name).map(({ id }) => id));
  const metals = new Set<string>(demoAtlas.metals?.map(({ id }) => id));
  const words = new Set<string>(ids.filter((id, at) => ids.indexOf(id) !== at));
  const look = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    for (const [key, each] of Object.entries(value)) {
      // A choice's options may be called as a term or a slot is; metals are meant to be.
      if (key === 'options') for (const { id } of each as { id: string }[]) if (!metals.has(id)) words.add(id);
      if (['kind', 'drawing', 'instrument', 'name'].includes(key)) words.add(each as string);
      if (/^[a-z]+[A-Z]?[a-z]*$/i.test(key)) words.add(key);
      look(each);
    }
  };
  look({ ...demoAtlas, parts: [] });
  return words;
})();

/** Few entries that stand, between them, at every kind of place where the id of any entry stands in the atlas, told by looking at every text and key of it. */
const renamed = ((): readonly (readonly [EditedList, string])[] => {
  const listOf = new Map(listsAndParts.flatMap(({ name }) => entriesOf(demoAtlas, name).map(({ id }) => [id, name] as const)));
  const places = new Map<string, Set<string>>();
  const at = (id: unknown, place: string): void => {
    const list = typeof id === 'string' ? listOf.get(id as never) : undefined;
    if (list !== undefined && (list === 'slots' || !ambiguous.has(id as string)))
      places.set(id as string, (places.get(id as string) ?? new Set()).add(`${list} ${place}`));
  };
  const look = (value: unknown, place: string): void => {
    at(value, place);
    if (typeof value !== 'object' || value === null) return;
    for (const [key, each] of Object.entries(value)) {
      const many = Array.isArray(value) || listOf.has(key as never) || place.endsWith(' feeds');
      if (!Array.isArray(value)) at(key, `${place} #`);
      look(each, `${place} ${many ? '*' : key}`);
    }
  };
  look({ ...demoAtlas, edition: '' }, '');
  const picked: [EditedList, string][] = [];
  const held = new Set<string>();
  // Those first that are told from other words, and stand in most places.
  const order = [...places].sort(([a, x], [b, y]) => Number(ambiguous.has(a)) - Number(ambiguous.has(b)) || y.size - x.size);
  for (const [id, of] of order) {
    if ([...of].every((place) => held.has(place))) continue;
    for (const place of of) held.add(place);
    picked.push([listOf.get(id as never) as EditedList, id]);
  }
  return picked;
})();

describe('[E1] an entry is called otherwise', () => {
  test('[E1] in any list nothing is left that refers to the old id, and all that did refers to the new one', () => {
    const before = written(made(demoAtlas, []));
    const seen = new Set<string>();
    for (const [list, id] of renamed) {
      const edits = renameEdits(demoAtlas, list, id, 'brand-new');
      const after = made(demoAtlas, edits);
      if (ambiguous.has(id)) expect(faultsOf(after), `${list} ${id}`).toEqual([]);
      else {
        expect(times(after, id), `${list} ${id}`).toBe(0);
        expect(times(after, 'brand-new'), `${list} ${id}`).toBe(before.split(JSON.stringify(id)).length - 1);
      }
      if (edits.length > 2) seen.add(list);
    }
    // Every list that anything refers to is among them.
    expect([...seen].sort()).toEqual(
      [
        'families',
        'features',
        'generations',
        'joints',
        'makers',
        'metals',
        'models',
        'parts',
        'ports',
        'slots',
        'sources',
        'stages',
        'terms',
      ].sort(),
    );
  });

  test('[E1] nothing else is touched: back again, and the atlas is what it was', () => {
    const there = made(demoAtlas, renameEdits(demoAtlas, 'features', 'compressor-wheel-exducer', 'cw-big-end'));
    const atlas = atlasOf(there);
    const back = made(atlas, renameEdits(atlas, 'features', 'cw-big-end', 'compressor-wheel-exducer'));
    expect(sorted(back)).toEqual(sorted(made(demoAtlas, [])));
  });

  test('[E1] an id that is taken, and an entry that is not there, are refused', () => {
    const [one, other] = demoAtlas.parts as [Part, Part];
    expect(() => renameEdits(demoAtlas, 'parts', one.id, other.id)).toThrow(other.id);
    expect(() => renameEdits(demoAtlas, 'parts', 'nobody', 'somebody')).toThrow('nobody');
  });
});

const sorted = (held: Held): unknown =>
  [...held].map(([name, entries]) => [name, [...entries].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, entry]) => entry)]);

const atlasOf = (held: Held): Atlas => {
  const lists = Object.fromEntries([...held].map(([name, entries]) => [name, [...entries.values()]]));
  const allowed = (lists.allowed ?? []) as readonly Allowance[];
  const models = ((lists.models ?? []) as readonly (Named & Values)[]).map((model) => ({
    ...model,
    allowed: allowed.filter((line) => line.model === model.id).map(({ slot, part, role }) => ({ slot, part, role })),
  }));
  return { edition: '', ...lists, models } as unknown as Atlas;
};

/** A second entry beside one of the atlas, as somebody would have entered it twice, with all that refers to the first in turn referring to the second. */
const withTwin = (list: EditedList, id: string, twin: (entry: Named & Values) => Named & Values): Atlas => {
  const entry = entriesOf(demoAtlas, list).find((one) => one.id === id) as Named & Values;
  const again = atlasOf(made(demoAtlas, renameEdits(demoAtlas, list, id, twin(entry).id)));
  const model = demoAtlas.models.find(({ allowed }) => !allowed.some(({ part }) => part === id)) as Atlas['models'][number];
  return atlasOf(
    made(again, [
      { list, put: twin(entry) },
      { list, put: entry },
      ...(list === 'parts' ? [{ allow: { model: model.id, part: id, slot: entry.slot, role: 'service' } } as Edit] : []),
    ]),
  );
};

const wheel = demoAtlas.parts.find(
  ({ slot, numbers, id }) =>
    slot === 'compressor-wheel' && numbers.length > 0 && demoAtlas.models.some(({ allowed }) => allowed.some(({ part }) => part === id)),
) as Part;

describe('[E1] two that turn out to be one', () => {
  test.each([
    ['parts', wheel.id],
    ['makers', 'merrowby'],
    ['families', 'petrel'],
    ['models', demoAtlas.models[0]?.id as string],
    ['sources', demoAtlas.sources[0]?.id as string],
    ['terms', demoAtlas.terms?.find(({ near }) => near !== undefined)?.id as string],
    ['generations', demoAtlas.generations[0]?.id as string],
  ] as const)('[E1] of %s: nothing refers to the one that goes, and all that did to the one that stays', (list, id) => {
    const atlas = withTwin(list, id, (entry) => ({ ...entry, id: 'the-twin', name: 'the twin' }));
    const before = made(atlas, []);
    expect(times(before, 'the-twin')).toBeGreaterThan(1);
    const { edits, differences } = mergeEdits(atlas, list, 'the-twin', id);
    const after = made(atlas, edits);
    expect(times(after, 'the-twin')).toBe(0);
    // One of the two is gone; everything else that named either names the one that stays.
    expect(times(after, id)).toBe(times(before, 'the-twin') + times(before, id) - 1);
    expect(faultsOf(after)).toEqual([]);
    expect(differences.map(({ key }) => key).filter((key) => key !== 'name' && key !== 'title')).toEqual([]);
  });

  const [blades, exducer] = ['compressor-wheel-full-blades', 'compressor-wheel-exducer'] as [FeatureId, FeatureId];
  const twins = (other: Partial<Part>, own: Partial<Part> = {}) => {
    const part = { ...wheel, ...own };
    const parts = demoAtlas.parts.map((one) => (one.id === wheel.id ? part : one));
    return { ...demoAtlas, parts: [...parts, { ...part, id: 'the-twin', ...other } as unknown as Part] };
  };
  const putOf = (edits: readonly Edit[]): Part =>
    edits.flatMap((edit) => ('put' in edit && edit.put.id === wheel.id ? [edit.put] : []))[0] as never;

  test('[E1] of parts: what only one says is said, numbers are of both, and what both say otherwise is asked and then decided', () => {
    const count = { kind: 'count', from: 3, to: 3 } as const;
    const other = demoAtlas.sources.find(({ id }) => id !== wheel.source)?.id as Part['source'];
    const atlas = twins(
      { numbers: ['TALLY 9'], source: other, facts: { [blades]: count, [exducer]: { kind: 'measure', nominal: 9, lower: 0, upper: 1 } } },
      { facts: { [exducer]: { kind: 'not known' }, [blades]: { kind: 'count', from: 5, to: 5 } } },
    );
    const asked = mergeEdits(atlas, 'parts', 'the-twin', wheel.id);
    expect(asked.differences).toEqual([
      { key: `facts/${blades}`, field: 'facts', line: blades, kept: { kind: 'count', from: 5, to: 5 }, other: count },
    ]);
    expect(putOf(asked.edits).numbers).toEqual([...wheel.numbers, 'TALLY 9']);
    expect(putOf(asked.edits).facts[blades]).toEqual({ kind: 'count', from: 5, to: 5 });
    // What is known stands before what is said not to be known, with the source it came from.
    expect(putOf(asked.edits).facts[exducer]).toMatchObject({ nominal: 9 });
    expect(putOf(asked.edits).factSources).toEqual({ [exducer]: other });
    const chosen = putOf(mergeEdits(atlas, 'parts', 'the-twin', wheel.id, { [`facts/${blades}`]: 'other' }).edits);
    expect(chosen.facts[blades]).toEqual(count);
    expect(chosen.factSources).toEqual({ [exducer]: other, [blades]: other });
  });

  test('[E1] of families: one that names both as where it comes from names one', () => {
    const with_ = withTwin('families', 'petrel', (entry) => ({ ...entry, id: 'the-twin' }));
    const families = with_.families.map((one) => (one.id === 'tern' ? { ...one, descendsFrom: ['petrel', 'gannet', 'the-twin'] } : one));
    const { edits } = mergeEdits({ ...with_, families } as unknown as Atlas, 'families', 'the-twin', 'petrel');
    expect(made(with_, edits).get('families')?.get('tern')).toMatchObject({ descendsFrom: ['petrel', 'gannet'] });
  });

  test('[E1] of parts: one that took the place of the other takes the place of nothing then', () => {
    const { edits } = mergeEdits(
      twins({ supersedes: wheel.id, patternOf: wheel.id }, { supersedes: undefined } as never),
      'parts',
      'the-twin',
      wheel.id,
    );
    expect(putOf(edits).supersedes).toBeUndefined();
    expect(putOf(edits).patternOf).toBeUndefined();
  });

  test('[E1] of parts: a model lists it once, in a role that is asked for where the two had different ones', () => {
    const model = demoAtlas.models.find(({ allowed }) => allowed.some(({ part }) => part === wheel.id)) as Atlas['models'][number];
    const role = model.allowed.find(({ part }) => part === wheel.id)?.role;
    const line = { slot: wheel.slot, part: 'the-twin', role: 'service' } as unknown as Allowance;
    const with_ = twins({});
    const atlas = { ...with_, models: with_.models.map((one) => (one === model ? { ...one, allowed: [...one.allowed, line] } : one)) };
    const asked = mergeEdits(atlas, 'parts', 'the-twin', wheel.id);
    expect(asked.differences).toEqual([{ key: `allowed/${model.id}`, field: 'allowed', line: model.id, kept: role, other: 'service' }]);
    const roleOf = (edits: readonly Edit[]) => {
      const line = made(atlas, edits).get('allowed')?.get(`${model.id} ${wheel.id}`) as Allowance | undefined;
      return line?.role;
    };
    expect(roleOf(asked.edits)).toBe(role);
    expect(roleOf(mergeEdits(atlas, 'parts', 'the-twin', wheel.id, { [`allowed/${model.id}`]: 'other' }).edits)).toBe('service');
  });

  test('[E1] of parts: a shop keeps one price, which is asked for where there were two', () => {
    const rates = { id: 'ours', name: 'ours', money: 'crowns', hour: 1, source: demoAtlas.sources[0]?.id };
    const prices = (one: number, other: number) => [
      { part: 'the-twin', price: other },
      { part: wheel.id, price: one },
    ];
    const with_ = twins({});
    const ask = (one: number, other: number, choice: 'kept' | 'other') => {
      const atlas = { ...with_, rates: [{ ...rates, parts: prices(one, other) }] } as unknown as Atlas;
      const { edits, differences } = mergeEdits(atlas, 'parts', 'the-twin', wheel.id, { 'rates/ours': choice });
      const ours = made(atlas, edits).get('rates')?.get('ours') as Values | undefined;
      return [ours?.parts, differences.map(({ key }) => key)];
    };
    expect(ask(4, 4, 'other')).toEqual([[{ part: wheel.id, price: 4 }], []]);
    expect(ask(4, 5, 'kept')).toEqual([[{ part: wheel.id, price: 4 }], ['rates/ours']]);
    expect(ask(4, 5, 'other')).toEqual([[{ part: wheel.id, price: 5 }], ['rates/ours']]);
  });

  test('[E1] parts of two slots are not one', () => {
    const other = demoAtlas.parts.find(({ slot }) => slot !== wheel.slot) as Part;
    expect(() => mergeEdits(demoAtlas, 'parts', other.id, wheel.id)).toThrow('different slots');
  });

  test('[E1] of numbers: a part has it once, however it was written, and so does a plate that bears it', () => {
    const plate = demoAtlas.features.find(({ says }) => says === 'part number')?.id as FeatureId;
    const [number] = wheel.numbers as [string];
    const facts = { [plate]: { kind: 'mark', anyOf: [number, 'KNOT 1'], blank: false } } as Part['facts'];
    const atlas = twins({ numbers: ['KNOT 1', number], facts });
    const parts = numberEdits(atlas, number.replace(/\W/g, '').toLowerCase(), 'KNOT 1').map(
      (edit) => (edit as unknown as { put: Part }).put,
    );
    expect(parts.map(({ id, numbers }) => [id, numbers])).toEqual([
      [wheel.id, ['KNOT 1', ...wheel.numbers.slice(1)]],
      ['the-twin', ['KNOT 1']],
    ]);
    expect(parts[1]?.facts[plate]).toEqual({ kind: 'mark', anyOf: ['KNOT 1'], blank: false });
    expect(numberEdits(atlas, 'KNOT 999999', 'KNOT 1')).toEqual([]);
  });
});

describe('[E3] one thing said of several parts', () => {
  const [one, two, three] = demoAtlas.parts.filter(({ slot }) => slot === 'compressor-wheel') as [Part, Part, Part];
  const blades = 'compressor-wheel-full-blades' as FeatureId;
  const other = demoAtlas.sources.find(({ id }) => id !== one.source)?.id as Part['source'];
  const five = { kind: 'count', from: 5, to: 5 } as const;
  const atlas: Atlas = {
    ...demoAtlas,
    parts: [
      { ...one, facts: { ...one.facts, [blades]: five }, factSources: { [blades]: other } },
      { ...two, facts: { ...two.facts, [blades]: { kind: 'not known' } }, factSources: { [blades]: other } },
      three,
    ],
  };
  const said = (of: Parameters<typeof manyEdits>[2]) =>
    manyEdits(atlas, [one.id, two.id], of).map((edit) => (edit as unknown as { put: Part }).put);

  test('[E3] only those are edited that do not say it already, and the fact has the part’s source again', () => {
    const puts = said({ of: 'feature', feature: blades, fact: five });
    expect(puts.map(({ id }) => id)).toEqual([two.id]);
    expect(puts[0]?.facts[blades]).toEqual(five);
    expect(puts[0]).not.toHaveProperty('factSources');
  });

  test('[E3] nothing said of a feature any more is no fact that it is not known', () => {
    const puts = said({ of: 'feature', feature: blades, fact: null });
    expect(puts.map(({ facts }) => blades in facts)).toEqual([false, false]);
    expect(puts.map((part) => 'factSources' in part)).toEqual([false, false]);
  });

  test('[E3] the maker, or none, and the source', () => {
    expect(said({ of: 'maker', maker: null }).map(({ maker }) => maker)).toEqual([null, null]);
    expect(said({ of: 'maker', maker: one.maker as never })).toEqual([]);
    expect(said({ of: 'source', source: other }).map(({ source }) => source)).toEqual([other, other]);
  });
});
