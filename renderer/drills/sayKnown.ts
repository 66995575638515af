import type { CallResult } from '../../electron/bridge/contract.ts';
import { sayDayOf } from '../values/days.ts';

export type FamilyKnown = CallResult<'drills.known'>[number]['families'][number];

const steps = 5;

/** How well a family is known, in words and in strokes that need no colour: ■ for every fifth answered rightly the last time. */
export const sayKnown = ({
  topics,
  asked,
  right,
  lastAt,
}: FamilyKnown): { readonly meter: string; readonly word: string; readonly share: string; readonly when: string } => {
  // Rounded down, so that all five are all of it.
  const full = topics === 0 ? 0 : Math.floor((steps * right) / topics);
  const word =
    asked === 0
      ? 'not asked yet'
      : right === topics
        ? 'all of it'
        : full >= 3
          ? 'most of it'
          : full >= 1
            ? 'some of it'
            : right > 0
              ? 'little of it'
              : 'none of it yet';
  return {
    meter: '■'.repeat(full) + '□'.repeat(steps - full),
    word,
    share: asked === 0 ? '' : `${right} of ${topics} right`,
    when: lastAt === null ? '' : `last asked ${sayDayOf(new Date(lastAt))}`,
  };
};
