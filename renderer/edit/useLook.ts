import type { ChangeSeen, Edit } from '../../db/answers.ts';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import { latestGiven, useAsk } from '../bridge/useAsk.ts';

export interface Looked {
  /** What the edits would come to, as far as it is known of just these. */
  readonly seen: ChangeSeen | null;
  /** The latest that is known, of these or of what stood before them. */
  readonly last: ChangeSeen | null;
  readonly trouble: Trouble | null;
}

/** What edits would come to, asked as they are typed. */
export const useLook = (edits: readonly Edit[]): Looked => {
  const asked = useAsk('changes.look', edits.length === 0 ? null : { edits: edits as CallArgs<'changes.look'>['edits'] }, 200);
  const given = latestGiven(asked);
  const now = given !== null && JSON.stringify(given.args.edits) === JSON.stringify(edits);
  return {
    seen: now && asked.state === 'answered' ? given.value : null,
    last: edits.length === 0 ? null : (given?.value ?? null),
    trouble: asked.state === 'trouble' ? asked.trouble : null,
  };
};
