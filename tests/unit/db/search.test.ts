import { expect, test } from 'vitest';
import { compact } from '../../../db/graph/search-terms.ts';
import { filledStore, freshStore, valueIn } from './kit.ts';

const search = async (text: string, limit = 20): Promise<string[]> =>
  valueIn(await (await filledStore()).graph.search(text, limit)).map((hit) => `${hit.node.kind} ${hit.node.id}`);

test.each(['BERTH 204-1117', 'berth204-1117', 'BERTH2041117', 'berth.204 1117', 'BERTH 204‐1117'])(
  'the number %s is found however it is written',
  async (text) => {
    expect(await search(text)).toEqual(['part ch-tern']);
  },
);

test('a number is found as it is typed, from its first letters on', async () => {
  expect(await search('BERTH 3')).toEqual([
    'part cw-tern-4',
    'part cw-tern-9',
    'part cw-petrel-13',
    'part cw-petrel-13-b',
    'part cw-petrel-13-c',
    // BERTH 120-3301: its second group begins with 3.
    'part bh-tern',
  ]);
  expect(await search('BERTH 310-2')).toEqual(['part cw-petrel-13-c']);
  expect(await search('T/7')).toEqual(['part ch-rowan']);
});

test('a number is found by any of its groups', async () => {
  expect(await search('2057')).toEqual(['part cw-petrel-13-c']);
  expect(await search('88-20')).toEqual(['part cw-petrel-13-c']);
});

test('the hit says which of a part’s numbers matched', async () => {
  const [hit] = valueIn(await (await filledStore()).graph.search('KNOT882057', 5));
  expect(hit).toEqual({
    node: { kind: 'part', id: 'cw-petrel-13-c', name: 'Petrel 13 compressor wheel, milled' },
    detail: 'Merrowby · compressor wheel',
    matched: 'KNOT 88-2057',
    invented: true,
  });
});

test('what is the text comes first, then what begins with it, then what has its words', async () => {
  expect((await search('tern')).slice(0, 3)).toEqual(['family tern', 'model tern-4', 'part cw-tern-4']);
  expect(await search('petrel 13')).toEqual([
    'model petrel-13',
    'part cw-petrel-13',
    'part cw-petrel-13-b',
    'part cw-petrel-13-c',
    'model quay-13',
  ]);
});

test('words may stand in any order and be cut short', async () => {
  expect(await search('wheel compr tern')).toEqual(['part cw-tern-4', 'part cw-tern-9']);
});

test('a maker is found by any name it traded under', async () => {
  expect(await search('Lisle Air')).toEqual(['maker merrowby']);
});

test('a pattern part says that it has no maker’s name', async () => {
  const [hit] = valueIn(await (await filledStore()).graph.search('Quay bearing', 5));
  expect(hit?.detail).toBe('no maker’s name · bearing housing');
});

test('nothing, separators alone and query signs find nothing and break nothing', async () => {
  for (const text of ['', '   ', '-/.', '"', '""*', 'NEAR(', 'a AND', '^x:', 'tern"*', '%', '_', '\u0000', 'x'.repeat(200)]) {
    expect(await search(text), text).toEqual(text === 'tern"*' ? await search('tern') : []);
  }
});

test('at most as many hits as asked for, each node once', async () => {
  expect(await search('e', 3)).toHaveLength(1);
  const many = await search('merrowby', 50);
  expect(new Set(many).size).toBe(many.length);
  expect(await search('BERTH', 4)).toHaveLength(4);
});

test('an empty atlas has nothing to find', async () => {
  expect(valueIn(await (await freshStore()).graph.search('tern', 5))).toEqual([]);
});

test('accents and case make no difference', () => {
  expect(compact('Ünsal-Hæfen 3′')).toBe('unsalhæfen3');
});
