import type { Maker } from '../../../../reasoner/index.ts';
import type { Plain } from '../../pack/draft.ts';
import { mark } from '../../pack/facts.ts';
import { numberFor } from '../../pack/hash.ts';
import { slots } from '../../vocabulary/slots.ts';
import { type House, headIn, issuesIn } from '../house.ts';

/** Full blades of each compressor trim. */
export const trimBlades = { JO: 6, JU: 6, QD: 7, QH: 7, RK: 9, WF: 8, WP: 8 } as const;
export type Trim = keyof typeof trimBlades;

/** The three figures that say the slot. */
const groupOf = (slot: string): string => String(100 + numberFor(slot, 800));

/** A stone, a dash and two letters for the compressor trim, and a prime for each generation after the first: `Basalt-QD′`. */
export const veldmark: Plain<Maker> = {
  id: 'veldmark',
  name: 'Veldmark',
  tradeNames: [{ name: 'Veldmark', from: 1961, to: null }],
  plateRule: true,
  grammar: {
    tokens: [
      {
        id: 'veldmark-stone',
        name: 'stone',
        before: '',
        optional: false,
        reads: { kind: 'word', words: ['Basalt', 'Gneiss', 'Tuff'] },
        promises: [
          {
            feature: 'turbine-wheel-rotation',
            kind: 'choice',
            of: { Basalt: ['anticlockwise'], Gneiss: ['anticlockwise'], Tuff: ['clockwise'] },
          },
          {
            feature: 'bearing-set-kind',
            kind: 'choice',
            of: { Basalt: ['journal'], Gneiss: ['cartridge'], Tuff: ['journal'] },
          },
        ],
      },
      {
        id: 'veldmark-trim',
        name: 'compressor trim',
        before: '-',
        optional: false,
        reads: { kind: 'letters', length: 2 },
        promises: [{ feature: 'compressor-wheel-full-blades', kind: 'count', of: trimBlades }],
      },
      {
        id: 'veldmark-generation',
        name: 'generation',
        before: '',
        optional: true,
        reads: { kind: 'sign', sign: '′', from: 1, to: 2 },
        promises: [{ feature: 'compressor-wheel-look', kind: 'choice', of: { '′': ['milled'], '′′': ['milled'] } }],
      },
    ],
    demands: [],
  },
  numbering: [
    {
      id: 'veldmark-part',
      name: 'part number',
      says: 'part number',
      from: null,
      to: null,
      pieces: [
        { before: '', kind: 'fixed', text: 'V' },
        { before: ' ', kind: 'slot', codes: Object.fromEntries(slots.map(({ id }) => [groupOf(id), id])) },
        { before: '.', kind: 'digits', name: 'running number', count: 4 },
        { before: '-', kind: 'digits', name: 'issue', count: 1, issue: true },
      ],
    },
    {
      id: 'veldmark-serial',
      name: 'serial number',
      says: 'serial number',
      from: null,
      to: null,
      pieces: [
        { before: '', kind: 'letters', name: 'works', among: 'BDFGHK', count: 2 },
        { before: ' ', kind: 'digits', name: 'running number', count: 6 },
        { before: '-', kind: 'check digit', weights: [7, 3, 1], modulus: 10, stamps: 'remainder', ten: 'X' },
      ],
    },
  ],
  source: 'veldmark-list',
};

/** Veldmark's number: `V`, seven figures in groups, and the issue after a stroke. */
const veldmarkNumber: House['number'] = (slot, id, issue) => `V ${groupOf(slot)}.${1000 + numberFor(`${slot} ${id}`, 9000)}-${issue}`;

export const veldmarkHouse: House = { maker: 'veldmark', source: 'veldmark-list', number: veldmarkNumber };
export const head = headIn(veldmarkHouse);
export const issues = issuesIn(veldmarkHouse);
export const veldmarkCasting = mark('VELDMARK');
