import { packFiles } from './pack/pack-files.ts';
import { drawings } from './vocabulary/drawings.ts';
import { features } from './vocabulary/features.ts';
import { instruments } from './vocabulary/instruments.ts';
import { joints } from './vocabulary/joints.ts';
import { ports } from './vocabulary/ports.ts';
import { chains, metals, operations, warmth } from './vocabulary/shop.ts';
import { slots } from './vocabulary/slots.ts';
import { sources } from './vocabulary/sources.ts';
import { stages } from './vocabulary/stages.ts';
import { terms } from './vocabulary/terms.ts';

export const vocabularyId = 'trade-vocabulary';

const head = {
  format: 'kinplate atlas pack',
  version: 1,
  id: vocabularyId,
  title: 'Vocabulary of the trade',
  edition: '2026-11-28.3',
  invented: true,
  note: 'The words are those of the trade, and no maker is named. Every limit, hour and figure in this pack is invented.',
};

/** The vocabulary pack as files: path inside the pack's folder, text. The same on every run. */
export const makeVocabulary = (): Map<string, string> =>
  packFiles(head, {
    'sources.json': sources,
    'stages.json': stages,
    'slots.json': slots,
    'ports.json': ports,
    'features.json': features,
    'joints.json': joints,
    'metals.json': metals,
    'operations.json': operations,
    'chains.json': chains,
    'warmth.json': warmth,
    'instruments.json': instruments,
    'drawings.json': drawings,
    'terms.json': terms,
  });
