import { expect, test } from 'vitest';
import { entriesCalled, entryNamed } from '../../../electron/desk/entries-called.ts';
import { asId, type SlotId } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

const names = (list: string, text: string, slot: string | null = null, limit = 5) =>
  entriesCalled(demo, list, text, slot === null ? null : asId<SlotId>(slot), limit).map(({ name }) => name);

test('[E2] an entry is picked by its name, its number or its id: first what is called just so, then what begins so, then what has the words', () => {
  const [part] = demo.data.parts.filter(({ numbers }) => numbers.length > 0);
  const number = part?.numbers[0] as string;
  expect(names('parts', number.replace(/\W/g, '').toLowerCase(), null, 1)).toEqual([part?.name]);
  expect(names('parts', part?.id as string, null, 1)).toEqual([part?.name]);
  expect(names('makers', 'merr')).toEqual(['Merrowby']);
  const found = names('models', 'petrel 6', null, 3);
  expect(found[0]).toMatch(/^Petrel 6/);
  // Words in any order, of the second line too.
  expect(names('parts', 'wheel shearwater 4 compressor', null, 2)[0]).toBe('Shearwater 4 compressor wheel');
  expect(names('parts', 'no such thing at all')).toEqual([]);
});

test('[E2] where nothing is typed all stand there in the order of the atlas, as many as are asked for; a slot narrows them', () => {
  expect(names('parts', '', null, 2)).toEqual(demo.data.parts.slice(0, 2).map(({ name }) => name));
  const shafts = demo.data.parts.filter(({ slot }) => slot === 'shaft').map(({ name }) => name);
  expect(names('parts', '', 'shaft', 1000)).toEqual(shafts);
});

test('[E2] two of one name are told apart by what stands beside it', () => {
  expect(entryNamed(demo, 'families', 'petrel')).toEqual({ id: 'petrel', name: 'Petrel', detail: 'Merrowby' });
  expect(entryNamed(demo, 'families', 'nobody')).toBeNull();
  const warm = demo.data.warmth?.[0];
  expect(entryNamed(demo, 'warmth', warm?.id as string)).toEqual({
    id: warm?.id,
    name: demo.data.joints.find(({ id }) => id === warm?.joint)?.name,
    detail: '115 and 95 K warmer',
  });
  const nameless = demo.data.parts.find(({ maker, numbers }) => maker === null && numbers.length === 0);
  expect(entryNamed(demo, 'parts', nameless?.id as string)?.detail).toMatch(/ · no maker’s name$/);
});
