import { sayMany } from '../values/sayMany.ts';
import type { CasesTold } from './casesRun.ts';

/** What came of judging saved cases by a change, in counts: each is told otherwise, the same, or cannot be judged either way. */
export const sayCasesTold = ({ differ, same, neither, judged, of, complete }: Omit<CasesTold, 'cases'>): string =>
  [
    judged === 1
      ? `The one saved case would be judged ${differ === 0 ? 'as it is now' : 'otherwise'}.`
      : differ === 0
        ? `None of ${sayMany(judged, 'saved case')} would be judged otherwise.`
        : `${differ} of ${sayMany(judged, 'saved case')} would be judged otherwise${same === 0 ? '' : `, ${same} the same`}.`,
    neither === 0 ? '' : `${sayMany(neither, 'case')} can be judged neither now nor then.`,
    complete ? '' : `Stopped before all ${of} were judged.`,
  ]
    .filter((text) => text !== '')
    .join(' ');
