import type { Told } from '../../reasoner/index.ts';
import { StatusMark } from '../look/StatusMark.tsx';

interface Props {
  readonly told: Told;
  readonly beside: Told;
  /** Whether words for the ticket are said, where they differ. */
  readonly ticket?: boolean;
}

/** What a case is told: its honest names, and what became of its claim. */
export function SayTold({ told, beside, ticket = true }: Props) {
  if (told.contradiction) return <p>Entries contradict each other; nothing is judged.</p>;
  const only = (of: 'may' | 'mustNot') =>
    (told.ticket?.[of] ?? []).filter((text) => beside.ticket !== null && !beside.ticket[of].includes(text));
  return (
    <>
      <p>
        <b>{told.honest.join(' or ')}</b>
      </p>
      {told.claim !== null && (
        <p>
          <q>{told.claim.text}</q> <StatusMark status={told.claim.status} />
        </p>
      )}
      {ticket &&
        (['may', 'mustNot'] as const).flatMap((of) =>
          only(of).map((text) => (
            <p key={text} className="small">
              {text}
            </p>
          )),
        )}
    </>
  );
}
