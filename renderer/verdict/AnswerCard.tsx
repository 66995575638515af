import './answer.css';
import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Name, Sheet } from '../../reasoner/index.ts';
import { WordAtTicket } from '../cases/WordAtTicket.tsx';
import { NextCheck } from '../odds/NextCheck.tsx';
import type { OddsHeld } from '../odds/useOdds.ts';
import { Headline } from './Headline.tsx';
import { Ticket } from './Ticket.tsx';

interface Props {
  readonly verdict: VerdictAtOnce;
  readonly odds: OddsHeld;
  readonly sheet: Sheet;
  /** Shows the reasons about a name, or about the claimed one. */
  onAbout(name: Name | null): void;
  onNames(): void;
}

/** What the counter wants, and no more: what became of the claim and why, the honest name, the words for the ticket, the next check. */
export function AnswerCard({ verdict, odds, sheet, onAbout, onNames }: Props) {
  const empty = verdict.claim === null && sheet.observations.length === 0 && sheet.absent.length === 0;
  return (
    <div className="answer">
      <Headline verdict={verdict} empty={empty} onWhy={() => onAbout(null)} onNames={onNames} />
      {!empty && <Ticket verdict={verdict} sheet={sheet} onAbout={onAbout} />}
      <div className="answer-foot">
        <NextCheck odds={odds} sheet={sheet} />
        <WordAtTicket sheet={sheet.id} />
      </div>
    </div>
  );
}
