import type { ReactNode } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { placeBeside } from './placeBeside.ts';

/** An expected failure, where it happened, in its own sentence. */
export function TroubleNote({
  trouble,
  lead,
  children,
}: {
  readonly trouble: Trouble;
  readonly lead: string;
  readonly children?: ReactNode;
}) {
  const place = placeBeside(trouble);
  return (
    <div className="trouble" role="alert">
      <strong>{lead}</strong> {trouble.sentence}
      {place !== null && <span className="soft"> ({place})</span>}
      {children}
    </div>
  );
}
