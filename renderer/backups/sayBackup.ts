import type { Backup, BackupCounts, BackupReason, HeldKind } from '../../db/answers.ts';
import { list } from '../../reasoner/plain/text.ts';
import { sayMany } from '../values/sayMany.ts';

/** Why a backup was made. */
export const sayReason = (reason: BackupReason): string => reasons[reason];

const reasons: Readonly<Record<BackupReason, string>> = {
  hourly: 'the hour had brought something new',
  asked: 'somebody asked for it',
  'before-migration': 'the atlas was then brought up to date',
  'before-pack': 'a pack was then changed',
  'before-mend': 'the atlas was then mended',
  'before-restore': 'another backup was then put back',
};

/** `3 case files, 1 photograph and 2 packs`: what there is none of is left out. */
export const sayHolds = (counts: BackupCounts): string => {
  const { cases, photographs, learners, answers, packs } = counts;
  const said = (
    [
      [cases, 'case file'],
      [photographs, 'photograph'],
      [learners, 'learner'],
      [answers, 'drill answered', 'drills answered'],
      [packs, 'pack'],
    ] as const
  ).flatMap(([many, one, more]) => (many === 0 ? [] : [more === undefined ? sayMany(many, one) : sayMany(many, one, more)]));
  return said.length === 0 ? 'nothing yet' : list(said);
};

export const sayState = ({ state }: Backup): string =>
  state.kind === 'sound' ? sayHolds(state.counts) : `It cannot be read. ${state.why}`;

export const sayKind = (kind: HeldKind): string => kinds[kind];

const kinds: Readonly<Record<HeldKind, string>> = {
  cases: 'Case files',
  sheets: 'Sheets',
  photographs: 'Photographs',
  learners: 'Learners, with what they answered',
  courses: 'Courses',
  packs: 'Packs',
  other: 'Other things the shop has set down',
};
