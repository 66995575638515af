import { expect, test } from 'vitest';
import { asId, type FamilyId, type GenerationId, type ModelId } from '../../../../reasoner/index.ts';
import { type Picks, withPick } from '../../../../renderer/route/picks.ts';
import { hrefOf, routeOf } from '../../../../renderer/route/route.ts';

const petrel = { kind: 'family', id: asId<FamilyId>('petrel') } as const;
const tern = { kind: 'model', id: asId<ModelId>('tern-4') } as const;
const skua = { kind: 'generation', id: asId<GenerationId>('skua/first') } as const;

test('[V3] two nodes are held against each other: a third takes the place of the second, a node picked again is let go', () => {
  expect(withPick([], petrel)).toEqual([petrel]);
  expect(withPick([petrel], tern)).toEqual([petrel, tern]);
  expect(withPick([petrel, tern], skua)).toEqual([petrel, skua]);
  expect(withPick([petrel, tern], petrel)).toEqual([tern]);
  expect(withPick([petrel], petrel)).toEqual([]);
});

test.each([[[]], [[petrel]], [[petrel, tern]], [[skua, tern]]] as readonly [Picks][])('[V3] what is picked has an address: %j', (picks) => {
  expect(routeOf(hrefOf({ screen: 'tree', picks }))).toEqual({ screen: 'tree', picks });
});

test('[V3] an address that picks what is no node picks nothing', () => {
  expect(routeOf('#/tree/slot/shaft/family')).toEqual({ screen: 'tree', picks: [] });
});
