import { atlas } from './0001-atlas.ts';
import { shop } from './0002-shop.ts';
import { cases } from './0003-cases.ts';
import { entry } from './0004-entry.ts';
import { drills } from './0005-drills.ts';
import { openLists } from './0006-open-lists.ts';
import { plausible } from './0007-plausible.ts';
import { guards } from './0008-guards.ts';
import { journal } from './0009-journal.ts';
import { drawings } from './0010-drawings.ts';
import { fitEdges } from './0011-fit-edges.ts';
import { leaning } from './0012-leaning.ts';
import { terms } from './0013-terms.ts';
import { noAcross } from './0014-no-across.ts';
import { shopWord } from './0015-shop-word.ts';
import { unitNumbers } from './0016-unit-numbers.ts';
import { whoDescribed } from './0017-who-described.ts';
import { inTurn } from './0018-in-turn.ts';
import { ownWords } from './0019-own-words.ts';
import { signing } from './0020-signing.ts';
import { shopRoom } from './0021-shop-room.ts';
import { tableTemplates } from './0022-table-templates.ts';
import { samples } from './0023-samples.ts';
import { carried } from './0024-carried.ts';
import { mapped } from './0025-mapped.ts';
import { counterLetter } from './0026-counter-letter.ts';
import { level } from './0027-level.ts';
import { lettersCount } from './0028-letters-count.ts';
import type { Migration } from './migration.ts';

export const migrations: readonly Migration[] = [
  atlas,
  shop,
  cases,
  entry,
  drills,
  openLists,
  plausible,
  guards,
  journal,
  drawings,
  fitEdges,
  leaning,
  terms,
  noAcross,
  shopWord,
  unitNumbers,
  whoDescribed,
  inTurn,
  ownWords,
  signing,
  shopRoom,
  tableTemplates,
  samples,
  carried,
  mapped,
  counterLetter,
  level,
  lettersCount,
];
