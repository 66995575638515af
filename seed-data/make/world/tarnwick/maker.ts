import type { Maker } from '../../../../reasoner/index.ts';
import type { Plain } from '../../pack/draft.ts';
import { mark } from '../../pack/facts.ts';
import { numberFor } from '../../pack/hash.ts';
import { type House, headIn, issuesIn } from '../house.ts';
import { slotCodes } from '../slot-codes.ts';

const slotNumbers: Readonly<Record<string, number>> = {
  'compressor-housing': 1,
  'compressor-wheel': 2,
  backplate: 3,
  'bearing-housing': 4,
  'bearing-set': 5,
  shaft: 6,
  'turbine-wheel': 7,
  'heat-shield': 8,
  'turbine-housing': 9,
  nameplate: 10,
};

/** A tree, the size step in Roman numerals, and the turbine housing's A/R in whole millimetres: `Rowan IV-18`. */
export const tarnwick: Plain<Maker> = {
  id: 'tarnwick',
  name: 'Tarnwick',
  tradeNames: [{ name: 'Tarnwick Turbine Company', from: 1958, to: null }],
  plateRule: true,
  grammar: {
    tokens: [
      {
        id: 'tarnwick-tree',
        name: 'tree',
        before: '',
        optional: false,
        reads: { kind: 'word', words: ['Alder', 'Rowan', 'Hornbeam'] },
        promises: [
          {
            feature: 'compressor-wheel-splitter-blades',
            kind: 'count',
            of: { Alder: 0, Rowan: 7, Hornbeam: 8 },
          },
        ],
      },
      {
        id: 'tarnwick-step',
        name: 'size step',
        before: ' ',
        optional: false,
        reads: { kind: 'roman numeral', from: 1, to: 8 },
        // The step is cast underneath: as many ribs as the numeral says.
        promises: [{ feature: 'bearing-housing-ribs', kind: 'number', within: 0 }],
      },
      {
        id: 'tarnwick-area-ratio',
        name: 'turbine housing A/R',
        before: '-',
        optional: false,
        reads: { kind: 'whole number', from: 9, to: 40 },
        promises: [{ feature: 'turbine-housing-area-ratio', kind: 'number', within: 0.5 }],
      },
    ],
    demands: [],
  },
  numbering: [
    {
      id: 'tarnwick-part',
      name: 'part number',
      says: 'part number',
      from: null,
      to: null,
      pieces: [
        { before: '', kind: 'slot', codes: slotCodes(slotNumbers) },
        { before: '/', kind: 'digits', name: 'running number', count: 4 },
      ],
    },
    {
      id: 'tarnwick-serial',
      name: 'serial number',
      says: 'serial number',
      from: 1958,
      to: null,
      pieces: [
        { before: '', kind: 'year', figures: 4 },
        { before: '-', kind: 'digits', name: 'running number', count: 5 },
      ],
    },
  ],
  source: 'tarnwick-list',
};

/** Tarnwick's number: its slot, a running number, and one dot more for every issue. */
const tarnwickNumber: House['number'] = (slot, id, issue) => `${slotNumbers[slot]}/${3000 + numberFor(id, 6900)}${'.'.repeat(issue - 1)}`;

export const tarnwickHouse: House = { maker: 'tarnwick', source: 'tarnwick-list', number: tarnwickNumber };
export const head = headIn(tarnwickHouse);
export const issues = issuesIn(tarnwickHouse);
export const tarnwickCasting = mark('TARNWICK', 'Tarnwick Turbine Company');
