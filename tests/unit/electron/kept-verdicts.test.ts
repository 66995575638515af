import { expect, test } from 'vitest';
import { KeptVerdicts } from '../../../electron/desk/kept-verdicts.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { asId, type CompiledAtlas, compileAtlas, type NameId, type Sheet } from '../../../reasoner/index.ts';
import { LastFew } from '../../../reasoner/plain/last-few.ts';
import { filledStore, valueIn } from '../db/kit.ts';
import { blades, littleAtlas, sheetOf } from '../reasoner/little-atlas.ts';

test('[B7] the last few are kept, each made once; the one used longest ago goes first, and what could not be made is made again', () => {
  const made: string[] = [];
  const few = new LastFew<string, string>(2, (one, other) => one === other);
  const of = (key: string) =>
    few.of(key, () => {
      made.push(key);
      if (key === 'bad') throw new Error('not made');
      return `made of ${key}`;
    });
  expect([of('a'), of('b'), of('a'), of('c'), of('a'), of('b')].map((text) => text.at(-1))).toEqual(['a', 'b', 'a', 'c', 'a', 'b']);
  expect(made).toEqual(['a', 'b', 'c', 'b']);
  expect(few.size).toBe(2);
  expect(() => of('bad')).toThrow('not made');
  expect(() => of('bad')).toThrow('not made');
  expect([few.size, of('b')]).toEqual([2, 'made of b']);
  expect(made).toEqual(['a', 'b', 'c', 'b', 'bad', 'bad']);
});

const little = compileAtlas(littleAtlas);
const offered = (claimed: string): Sheet => sheetOf([blades(8)], { claimed });

test('[B7] a sheet asked about again is not judged again, nor a name of it explained again; so many sheets are kept and no more', () => {
  const kept = new KeptVerdicts();
  const once = kept.of(little, offered('Cod 1'));
  expect(kept.of(little, structuredClone(offered('Cod 1')))).toBe(once);
  const name = asId<NameId>('model:cod-1');
  expect(once.explained(name, false)).toBe(once.explained(name, false));
  for (const claimed of 'abcdefgh') kept.of(little, offered(claimed));
  expect(kept.size).toBe(3);
  expect(kept.of(little, offered('Cod 1'))).not.toBe(once);
});

test('[H5] no other sheet, atlas or edition is answered from what was judged before', () => {
  const kept = new KeptVerdicts();
  const once = kept.of(little, offered('Cod 1'));
  const asked: readonly (readonly [CompiledAtlas, Sheet])[] = [
    [little, offered('Cod 2')],
    [little, { ...offered('Cod 1'), observations: [blades(9)] }],
    [compileAtlas(littleAtlas), offered('Cod 1')],
  ];
  for (const [atlas, sheet] of asked) expect(kept.of(atlas, sheet)).not.toBe(once);
  const named = new KeptVerdicts();
  const renamed = compileAtlas({ ...littleAtlas });
  const before = named.of(renamed, offered('Cod 1'));
  (renamed.data as { edition: string }).edition = 'called otherwise';
  expect(named.of(renamed, offered('Cod 1')).brief.edition).toBe('called otherwise');
  expect(named.of(renamed, offered('Cod 1'))).not.toBe(before);
});

test('[H5] pages of a verdict are of the atlas as it is now: a pack taken away between two pages is in neither the count nor the rows', async () => {
  const store = await filledStore();
  const desk = openDesk(store);
  const ask = { sheet: sheetOf([]), statuses: ['stands', 'open', 'ruled out'], text: '', from: 0, count: 500 } as const;
  const before = valueIn(await desk['verdict.names'](ask));
  expect(before.rows.map(({ name }) => name.id)).toContain('model:petrel-13');
  valueIn(await store.packs.remove('small'));
  const after = valueIn(await desk['verdict.names'](ask));
  expect(after.rows.map(({ name }) => name.rung)).toEqual(['parts']);
  expect(after.count).toBe(1);
});
