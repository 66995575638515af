import { expect, test } from 'vitest';
import { asId, type FamilyId, type MakerId, type ModelId, type PartId, type SheetId } from '../../../reasoner/index.ts';
import { addresses, hrefOf, type Route, routeOf } from '../../../renderer/route/route.ts';
import { addressMeant } from '../../../renderer/unknown/addressMeant.ts';

const routes: readonly Route[] = [
  { screen: 'unit' },
  { screen: 'sheets' },
  { screen: 'case', sheet: asId<SheetId>('sheet/7 b') },
  { screen: 'report' },
  { screen: 'listings' },
  { screen: 'retold' },
  { screen: 'backups' },
  { screen: 'prices' },
  { screen: 'apart', subjects: [] },
  { screen: 'key', families: [] },
  { screen: 'key', families: [asId<FamilyId>('petrel'), asId<FamilyId>('tern/b')] },
  {
    screen: 'apart',
    subjects: [
      { kind: 'family', id: asId<FamilyId>('petrel') },
      { kind: 'model', id: asId<ModelId>('basalt-qd′') },
      { kind: 'part', id: asId<PartId>('a b%2F/c') },
    ],
  },
  { screen: 'edit', place: { at: 'lists' } },
  { screen: 'history', of: null },
  { screen: 'history', of: { list: 'parts', id: 'basalt-qd′' } },
  { screen: 'edit', place: { at: 'list', list: 'parts' } },
  { screen: 'edit', place: { at: 'new', list: 'parts', like: null } },
  { screen: 'edit', place: { at: 'new', list: 'parts', like: 'basalt-qd′' } },
  { screen: 'edit', place: { at: 'entry', list: 'parts', id: 'new' } },
  { screen: 'edit', place: { at: 'entry', list: 'models', id: 'basalt-qd′+1' } },
  { screen: 'glossary', term: null },
  { screen: 'glossary', term: 'a-r' },
  { screen: 'help', at: null },
  { screen: 'help', at: 'spreadsheet' },
  { screen: 'atlas', page: null },
  { screen: 'atlas', page: { kind: 'maker', id: asId<MakerId>('merrowby') } },
  { screen: 'atlas', page: { kind: 'family', id: asId<FamilyId>('petrel'), beside: null } },
  { screen: 'atlas', page: { kind: 'family', id: asId<FamilyId>('petrel'), beside: asId<FamilyId>('tern/b') } },
  { screen: 'atlas', page: { kind: 'model', id: asId<ModelId>('basalt-qd′') } },
  { screen: 'atlas', page: { kind: 'part', id: asId<PartId>('a b%2F/c') } },
  { screen: 'unknown', address: 'nowhere/at%20all' },
];

test.each(routes)('[A1] every place of the window has an address that leads back to it: %j', (route) => {
  expect(routeOf(hrefOf(route))).toEqual(route);
});

test.each(['', '#', '#/', '#Zx-key'])('[A1] the address “%s” leads to the unit on the bench', (hash) => {
  expect(routeOf(hash)).toEqual({ screen: 'unit' });
});

test('[A1] the address many listings had before leads there', () => {
  expect(routeOf('#/triage')).toEqual({ screen: 'listings' });
});

test.each([
  '#/nowhere',
  '#/nowhere/at/all',
  '#/unit/more',
  '#/shop/more',
  '#/build/nowhere',
  '#/drills/nowhere',
  '#/atlas/thing',
  '#/atlas/thing/x',
  '#/atlas/constructor/x',
  '#/Stock',
  '#/history/foo',
  '#/history/foo/bar',
  '#/edit/foo',
  '#/edit/foo/bar',
  '#/edit/foo/new',
  '#/edit/constructor',
])('[V4] the address “%s” is none of ours, and is said to be none', (hash) => {
  expect(routeOf(hash)).toEqual({ screen: 'unknown', address: hash.slice(2) });
});

test('[A1] an address cut short leads to the opening of its screen, and a broken one does not throw', () => {
  expect(routeOf('#/atlas/part')).toEqual({ screen: 'atlas', page: null });
  expect(routeOf('#/atlas/')).toEqual({ screen: 'atlas', page: null });
  expect(routeOf('#/unit/')).toEqual({ screen: 'unit' });
  expect(routeOf('#/build/')).toEqual({ screen: 'build', place: 'bench' });
  expect(routeOf('#/case')).toEqual({ screen: 'sheets' });
  expect(routeOf('#/atlas/part/%E0%A4%A')).toEqual({ screen: 'atlas', page: { kind: 'part', id: '%E0%A4%A' } });
});

test('[V4] every address there is leads to a screen', () => {
  expect(addresses.filter((one) => routeOf(`#/${one}`).screen === 'unknown')).toEqual([]);
});

test('[V4] every screen has an address that can be meant', () => {
  for (const route of routes) if (route.screen !== 'unknown') expect(addresses).toContain(hrefOf(route).split(/[/?]/)[1]);
});

test.each([
  ['stok', 'stock'],
  ['Stock', 'stock'],
  ['tre/family/petrel', 'tree'],
  ['buld', 'build'],
  ['sheet', 'sheets'],
  ['atlas/thing/x', 'atlas'],
  ['nowhere', null],
  ['', null],
])('[V4] “%s” may have been meant for %s', (address, meant) => {
  expect(addressMeant(address)).toBe(meant);
});
