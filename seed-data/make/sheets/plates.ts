import type { SheetDraft } from '../pack/draft.ts';
import { merrowbyNumber } from '../world/merrowby/maker.ts';
import { found, seenChoice, seenCount, seenMark, seenPresence } from './sheet.ts';

/** Plates that argue with themselves. What is stamped is all there is to go by before anything is opened. */
export const plateSheets = (): readonly SheetDraft[] => [
  found(
    {
      id: 's30-plate-that-argues',
      title: 'A plate that argues with itself',
      story:
        'Jory types a plate into the sheet before the kettle boils. The name on it is one Merrowby gave up in 1992, the serial number is of the kind it began that year, and one figure in it cannot be right. Ines asks the customer where he bought it.',
      claimed: ['merrowby', 'Skua 13 Cartridge'],
    },
    [
      seenMark('nameplate', 'number', merrowbyNumber('nameplate', 'merrowby-petrel-13-cartridge', 1)),
      seenMark('nameplate', 'trade-name', 'Lisle-Merrowby'),
      seenMark('nameplate', 'serial-text', 'R 0307 41377 3'),
      seenCount('nameplate', 'year', 1989),
      seenChoice('nameplate', 'fixing', 'replaced-rivets'),
      seenPresence('bearing-housing', 'water-ports', true),
    ],
  ),
  found(
    {
      id: 's31-number-off-a-wheel',
      title: 'A number off a wheel',
      story:
        'A plate stamped by hand: somebody copied the number from the box of a compressor wheel, and an old issue of it at that. The serial number is Tarnwick’s way of writing one.',
      claimed: ['merrowby', 'Petrel 13 Cartridge'],
    },
    [
      seenMark('nameplate', 'number', merrowbyNumber('compressor-wheel', 'merrowby-petrel-13-compressor-wheel', 1)),
      seenMark('nameplate', 'trade-name', 'Merrowby Rotating Machines'),
      seenMark('nameplate', 'serial-text', '2001-04412'),
    ],
  ),
];
