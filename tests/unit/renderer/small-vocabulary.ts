import type { Vocabulary } from '../../../db/answers.ts';
import { wordsOf } from '../../../renderer/bridge/words.ts';

/** Five slots in a row, a feature on each, joints between neighbours and one that spans three slots. Invented. */
const slots = ['compressor-housing', 'compressor-wheel', 'shaft', 'turbine-wheel', 'turbine-housing'];
const joints = [
  ['wheel-in-contour', 0, 1],
  ['wheel-on-shaft', 1, 2],
  ['weld', 2, 3],
  ['turbine-contour', 3, 4],
  ['through-bolts', 0, 4],
] as const;

export const smallVocabulary = {
  edition: 'test',
  packs: [],
  counts: { makers: 0, families: 0, models: 0, parts: 0 },
  stages: [
    { id: 'received', name: 'as received', minutes: 0, after: [] },
    { id: 'open', name: 'compressor housing off', minutes: 8, after: ['received'] },
  ],
  slots: slots.map((id) => ({ id, name: id.replace('-', ' '), group: 'core', stage: 'received', swapMinutes: 5 })),
  ports: slots.flatMap((slot) => [{ id: `${slot}.face`, slot, name: 'face' }]),
  features: [
    ...slots.map((slot) => ({ id: `${slot}.look`, slot, name: 'look', kind: 'mark', stage: 'open', minutes: 2 })),
    ...slots.map((slot) => ({
      id: `${slot}.count`,
      slot,
      name: 'blade count',
      kind: 'count',
      unit: 'blades',
      stage: 'received',
      minutes: 1,
    })),
  ],
  joints: joints.map(([id, a, b]) => ({
    id,
    name: id.replaceAll('-', ' '),
    a: `${slots[a]}.face`,
    b: `${slots[b]}.face`,
    rules: [],
    source: 's',
  })),
  makers: [],
  instruments: [],
  families: [],
  models: [],
  sources: [],
} as unknown as Vocabulary;

export const smallWords = wordsOf(smallVocabulary);
