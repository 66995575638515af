import { describe, expect, test } from 'vitest';
import { type Observation, readListing } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { asEdit, chosenAtFirst, takenOf, withTaken } from '../../../renderer/listing/listingChoice.ts';
import { asId } from '../../../renderer/route/asId.ts';
import { demo } from '../seed/demo-atlas.ts';

const blank = blankSheet(asId('sheet-1'));
const read = (text: string) => readListing(demo, text);
/** A listing's settled finds on a sheet, without its words. */
const putOn = (sheet: typeof blank, text: string) => {
  const listing = read(text);
  return asEdit(sheet, takenOf(listing, chosenAtFirst(listing)), null)(sheet);
};

describe('what is taken of a listing', () => {
  test('[O1] its serial number becomes the sheet’s, said to be the listing’s, and everything else is told', () => {
    const sheet = putOn(blank, 'Turbine wheel 10 blades, S/N R 0307 41377 2');
    expect(sheet.serial).toBe('R 0307 41377 2');
    expect(sheet.story).toBe('The serial number R 0307 41377 2 is a listing’s.');
    expect(sheet.observations.map(({ sure }) => sure.kind)).toEqual(['told']);
  });

  test('[O1] it never takes the place of another, which goes into the story; the same one says nothing new', () => {
    const stamped = { ...blank, serial: 'R030741377 2' };
    expect(putOn(stamped, 'S/N R 0307 41377 2')).toEqual(stamped);
    expect(putOn(stamped, 'S/N 1998-00123')).toEqual({ ...stamped, story: 'A listing gives another serial number: 1998-00123.' });
  });

  test('[O1] of two serial numbers one is taken, and taking the other refuses it', () => {
    const { finds } = read('S/N 1998-00123 or serial no. 1998-00124');
    const first = chosenAtFirst({ finds });
    expect(first.map(({ taken }) => taken)).toEqual([true, false]);
    expect(withTaken(finds, first, 1, true).map(({ taken }) => taken)).toEqual([false, true]);
  });

  test('[O1] a doubt is not taken unasked, and can be where it can be one thing only; what no such part has cannot', () => {
    expect(chosenAtFirst(read('low hours, 6+6'))).toEqual([
      { taken: false, as: 0 },
      { taken: false, as: 0 },
    ]);
    expect(chosenAtFirst(read('A twin entry unit.'))).toEqual([{ taken: false, as: null }]);
    expect(chosenAtFirst(read('Turbine wheel, blade count 111.'))).toEqual([{ taken: false, as: null }]);
  });

  test('[O1] read again, a listing says nothing twice', () => {
    const once = putOn(blank, 'Turbine wheel 10 blades, exducer 57.2 mm');
    expect(once.observations).toHaveLength(2);
    expect(putOn(once, 'Turbine wheel 10 blades, exducer 57.2 mm')).toEqual(once);
    // What was seen is another thing than what is told.
    const seen = { ...once, observations: once.observations.map((one): Observation => ({ ...one, sure: { kind: 'seen' } })) };
    expect(putOn(seen, 'Turbine wheel 10 blades').observations).toHaveLength(3);
  });
});
