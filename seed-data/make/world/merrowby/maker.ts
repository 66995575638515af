import type { Maker } from '../../../../reasoner/index.ts';
import type { FactDraft, Plain } from '../../pack/draft.ts';
import { mark } from '../../pack/facts.ts';
import { numberFor } from '../../pack/hash.ts';
import { tradeNamesDuring, type Years } from '../../pack/years.ts';
import { demand } from '../demand.ts';
import type { House } from '../house.ts';
import { slotCodes } from '../slot-codes.ts';
import { largestSize, wheelsBySize } from './running-sizes.ts';

export const merrowbyTradeNames = [
  { name: 'Lisle Air Engines', from: 1951, to: 1974 },
  { name: 'Lisle-Merrowby', from: 1974, to: 1992 },
  { name: 'Merrowby Rotating Machines', from: 1992, to: 2009 },
  { name: 'Merrowby', from: 2009, to: null },
];

const birds = ['Shearwater', 'Dunlin', 'Fulmar', 'Tern', 'Gannet', 'Petrel', 'Skua'];
const journalBirds = ['Shearwater', 'Dunlin', 'Fulmar', 'Tern'];

const slotWords: Readonly<Record<string, string>> = {
  'compressor-housing': 'SAIL',
  'compressor-wheel': 'OAR',
  backplate: 'KEEL',
  'bearing-housing': 'HULL',
  'bearing-set': 'ROPE',
  shaft: 'MAST',
  'turbine-wheel': 'FIN',
  'heat-shield': 'HATCH',
  'turbine-housing': 'HOLD',
  nameplate: 'FLAG',
};

/** A bird, a running size that stands for the compressor wheel by a table, and a word where the bearing set is a cartridge: `Petrel 6 Cartridge`. */
export const merrowby: Plain<Maker> = {
  id: 'merrowby',
  name: 'Merrowby',
  tradeNames: merrowbyTradeNames,
  plateRule: true,
  grammar: {
    tokens: [
      {
        id: 'merrowby-bird',
        name: 'bird',
        before: '',
        optional: false,
        reads: { kind: 'word', words: birds },
        promises: [
          {
            feature: 'bearing-set-kind',
            kind: 'choice',
            of: { ...Object.fromEntries(journalBirds.map((bird) => [bird, ['journal']])), Petrel: ['cartridge'], Skua: ['cartridge'] },
          },
        ],
      },
      {
        id: 'merrowby-size',
        name: 'running size',
        before: ' ',
        optional: false,
        reads: { kind: 'whole number', from: 1, to: largestSize },
        promises: [{ feature: 'compressor-wheel-exducer', kind: 'measure', of: wheelsBySize, within: 0.5 }],
      },
      {
        id: 'merrowby-bearing',
        name: 'bearing word',
        before: ' ',
        optional: true,
        reads: { kind: 'word', words: ['Cartridge'] },
        promises: [{ feature: 'bearing-set-kind', kind: 'choice', of: { Cartridge: ['cartridge'] } }],
      },
    ],
    demands: [
      demand(
        'merrowby-bird',
        ['Petrel', 'Skua'],
        'merrowby-bearing',
        true,
        'Petrel and Skua were only ever built on a ball-bearing cartridge, and their names say so',
      ),
      demand(
        'merrowby-bird',
        journalBirds,
        'merrowby-bearing',
        false,
        'Shearwater, Dunlin, Fulmar and Tern were never built on a cartridge',
      ),
    ],
  },
  numbering: [
    {
      id: 'merrowby-part',
      name: 'part number',
      says: 'part number',
      from: null,
      to: null,
      pieces: [
        { before: '', kind: 'slot', codes: slotCodes(slotWords) },
        { before: ' ', kind: 'digits', name: 'running number', count: 5 },
        { before: '/', kind: 'digits', name: 'issue of the drawing', count: 1, issue: true },
      ],
    },
    {
      id: 'merrowby-part-1',
      name: 'part number of Lisle Air Engines',
      says: 'part number',
      from: 1951,
      to: 1974,
      pieces: [
        { before: '', kind: 'fixed', text: 'L' },
        { before: ' ', kind: 'digits', name: 'running number', count: 4 },
      ],
    },
    {
      id: 'merrowby-serial-1',
      name: 'serial number of Lisle Air Engines',
      says: 'serial number',
      from: 1951,
      to: 1974,
      pieces: [
        { before: '', kind: 'fixed', text: 'L' },
        { before: ' ', kind: 'digits', name: 'running number', count: 4 },
        { before: '/', kind: 'year', figures: 2 },
      ],
    },
    {
      id: 'merrowby-serial-2',
      name: 'serial number of Lisle-Merrowby',
      says: 'serial number',
      from: 1974,
      to: 1992,
      pieces: [
        { before: '', kind: 'year letter', letters: 'ABCDEFGHJKLMNPQRSTU', first: 1974 },
        { before: '', kind: 'month letter', letters: 'ABCDEFGHJKLM' },
        { before: '-', kind: 'digits', name: 'running number', count: 4 },
        { before: '-', kind: 'check digit', weights: [2, 3, 4, 5], modulus: 11, stamps: 'complement', ten: 'X' },
      ],
    },
    {
      id: 'merrowby-serial-3',
      name: 'serial number since 1992',
      says: 'serial number',
      from: 1992,
      to: null,
      pieces: [
        { before: '', kind: 'fixed', text: 'R' },
        { before: ' ', kind: 'year', figures: 2 },
        { before: '', kind: 'month' },
        { before: ' ', kind: 'digits', name: 'running number', count: 5 },
        { before: ' ', kind: 'check digit', weights: [1, 3], modulus: 10, stamps: 'complement', ten: 'X' },
      ],
    },
  ],
  source: 'merrowby-list',
};

/** Merrowby's number: a ship's word for the slot, a running number in base eight, and a stroke with the issue of the drawing. */
export const merrowbyNumber = (slot: string, id: string, issue: number): string =>
  `${slotWords[slot]} ${(0o10000 + numberFor(id, 0o70000)).toString(8)}/${issue}`;

export const merrowbyHouse: House = { maker: 'merrowby', source: 'merrowby-list', number: merrowbyNumber };

/** The maker's names found cast on parts made in these years. */
export const merrowbyCasting = (years: Years): FactDraft => mark(...tradeNamesDuring(merrowbyTradeNames, years).map(({ name }) => name));
