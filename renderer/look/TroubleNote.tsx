import type { ReactNode } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';

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
  return (
    <div className="trouble" role="alert">
      <strong>{lead}</strong> {trouble.sentence}
      {trouble.place !== null && <span className="soft"> ({trouble.place})</span>}
      {children}
    </div>
  );
}
