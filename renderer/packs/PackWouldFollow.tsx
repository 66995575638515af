import { useState } from 'react';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import { WouldFollowOf } from '../edit/WouldFollow.tsx';

interface Props {
  /** Null where something is still to be decided. */
  readonly of: CallArgs<'changes.would'>['of'] | null;
  readonly summary: string;
}

/** What would follow of a pack put in or taken out. It is worked out where somebody opens it: the whole atlas is made anew for it. */
export function PackWouldFollow({ of, summary }: Props) {
  const [open, setOpen] = useState(false);
  return (
    <details className="pack-would no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary}</summary>
      {open && of === null && <p className="soft">It can be worked out once all is decided.</p>}
      {open && <WouldFollowOf args={of === null ? null : { of }} />}
    </details>
  );
}
