import type { Maker } from '../../../../reasoner/index.ts';
import type { Plain } from '../../pack/draft.ts';
import { markOrBlank } from '../../pack/facts.ts';
import { numberFor } from '../../pack/hash.ts';
import { type House, headIn, issuesIn } from '../house.ts';

/** A rig, the rated power in kilowatts, and `port` or `starboard` for the direction of rotation: `Yawl 240 port`. */
export const osterhal: Plain<Maker> = {
  id: 'osterhal',
  name: 'Osterhal',
  tradeNames: [{ name: 'Osterhal Diesel', from: 1955, to: null }],
  plateRule: false,
  grammar: {
    tokens: [
      {
        id: 'osterhal-rig',
        name: 'rig',
        before: '',
        optional: false,
        reads: { kind: 'word', words: ['Ketch', 'Yawl', 'Lugger'] },
        promises: [
          {
            feature: 'bearing-set-kind',
            kind: 'choice',
            of: { Ketch: ['journal'], Yawl: ['journal'], Lugger: ['journal'] },
          },
        ],
      },
      {
        id: 'osterhal-power',
        name: 'rated power in kilowatts',
        before: ' ',
        optional: false,
        reads: { kind: 'whole number', from: 120, to: 600 },
        promises: [],
      },
      {
        id: 'osterhal-hand',
        name: 'direction of rotation',
        before: ' ',
        optional: false,
        reads: { kind: 'word', words: ['port', 'starboard'] },
        promises: [
          { feature: 'turbine-wheel-rotation', kind: 'choice', of: { port: ['anticlockwise'], starboard: ['clockwise'] } },
          { feature: 'shaft-thread-hand', kind: 'choice', of: { port: ['right'], starboard: ['left'] } },
        ],
      },
    ],
    demands: [],
  },
  // How Osterhal numbers its units nobody in Port Hallow knows; its parts are numbered by the spares book.
  numbering: [
    {
      id: 'osterhal-part',
      name: 'part number',
      says: 'part number',
      from: null,
      to: null,
      pieces: [
        { before: '', kind: 'fixed', text: 'BUOY' },
        { before: ' ', kind: 'digits', name: 'number in the spares book', count: 5 },
        { before: ' ', kind: 'fixed', text: 'vol.' },
        { before: ' ', kind: 'digits', name: 'volume', count: 1 },
      ],
    },
  ],
  source: 'osterhal-list',
};

/** Osterhal's number: `BUOY`, five figures, and the volume of the spares book. */
const osterhalNumber: House['number'] = (slot, id, issue) => `BUOY ${10_000 + numberFor(`${slot}:${id}`, 89_000)} vol. ${issue}`;

export const osterhalHouse: House = { maker: 'osterhal', source: 'osterhal-list', number: osterhalNumber };
export const head = headIn(osterhalHouse);
export const issues = issuesIn(osterhalHouse);
/** Osterhal did not always cast its name. */
export const osterhalCasting = markOrBlank('OSTERHAL');
