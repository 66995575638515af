import type { NextCheck, Stopping } from '../../reasoner/index.ts';

/** Whether looking on could still change the honest name or the claim, in a sentence; where the check shown has no part in that, the one that has. */
export function StopLine({ stopping, offered }: { readonly stopping: Stopping | null; readonly offered: NextCheck | null }) {
  if (stopping === null) return null;
  const [lead, ...rest] = stopping.sentence.split(': ');
  return (
    <p className={stopping.kind === 'you may stop' ? 'stop-line' : 'stop-line soft'} data-stop={stopping.kind.replaceAll(' ', '-')}>
      {stopping.kind === 'you may stop' ? (
        <>
          <b>{lead}:</b> {rest.join(': ')}
        </>
      ) : (
        stopping.sentence
      )}
      {stopping.kind === 'you may stop' && offered !== null && ' One entry is worth reading again first.'}
      {stopping.kind === 'go on' && offered?.check.feature !== stopping.feature && ` For that: ${stopping.how}`}
    </p>
  );
}
