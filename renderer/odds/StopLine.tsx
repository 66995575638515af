import type { NextCheck, Stopping } from '../../reasoner/index.ts';

/** Whether looking on could still change the honest name or the claim, in a sentence. */
export function StopLine({ stopping, offered }: { readonly stopping: Stopping | null; readonly offered: NextCheck | null }) {
  if (stopping === null) return null;
  switch (stopping.kind) {
    case 'you may stop':
      return (
        <p className="stop-line" data-stop="may">
          <b>You may stop:</b> no check still to be made could change the honest name or the claim
          {offered === null ? '.' : '. One entry is worth reading again first.'}
        </p>
      );
    case 'go on':
      return (
        <p className="stop-line soft" data-stop="go-on">
          Looking on could still make it {stopping.honest.map(({ text }) => text).join('; ')}
          {offered?.check.feature === stopping.feature ? '.' : `. For that: ${stopping.how}`}
        </p>
      );
    case 'not settled':
      return (
        <p className="stop-line soft" data-stop="not-settled">
          Whether you may stop is not settled: of {stopping.judged} courses of readings none changed the honest name or the claim, and
          others are left.
        </p>
      );
  }
}
