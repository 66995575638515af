import { useState } from 'react';
import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Clause, Name, Reason, Sheet } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayDay, today } from '../cases/sayCase.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { keys } from '../look/keys.ts';
import { shortcuts } from '../look/presses.ts';
import { sayObservation } from '../values/sayings.ts';
import { Cautions } from './Cautions.tsx';
import { leadTo } from './leadTo.ts';
import { TagOnPaper } from './TagOnPaper.tsx';
import { mayTitle, mustNotTitle, ticketText } from './ticketText.ts';
import { useCopied, useTicketKey } from './useCopied.ts';

interface Props {
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
  onAbout(name: Name): void;
}

/** W1: the tag that goes on the unit: its case and day, the words for the ticket, whole sentences all, and the cautions. Every clause opens to what it rests on. */
export function Ticket({ verdict, sheet, onAbout }: Props) {
  const { unit } = useBench();
  const head = { number: unit.kept?.sheet.id === sheet.id ? unit.kept.number : null, day: sayDay(today()) };
  const { copied, copy } = useCopied(() => ticketText(head, verdict));
  const [printing, setPrinting] = useState(false);
  useTicketKey(copy);
  return (
    <section className="tag-card" id="verdict-ticket" tabIndex={-1} aria-labelledby="verdict-ticket-title">
      <div className="tag-head">
        <h2 id="verdict-ticket-title" className="head">
          For the ticket
        </h2>
        <span className="tag-case">
          {head.number === null ? <span className="soft">no case number yet</span> : <b>{head.number}</b>} {head.day}
        </span>
        <span role="status" className="small">
          {copied === 'yes' ? 'Copied' : copied === 'refused' ? 'The system refused: press Ctrl+C to copy them' : ''}
        </span>
        <span className="tag-do no-print">
          <button
            type="button"
            className="button"
            aria-keyshortcuts={shortcuts(keys.unit.lines.copy)}
            title="Copy the words: F9"
            onClick={copy}
          >
            Copy
          </button>
          <button type="button" className="button" title="Print the tag" onClick={() => setPrinting(true)}>
            Print
          </button>
        </span>
      </div>
      <div className="tag-body">
        <div className="ticket">
          <TicketText title={mayTitle} tone="may" clauses={verdict.ticket.may} verdict={verdict} sheet={sheet} onAbout={onAbout} />
          <TicketText
            title={mustNotTitle}
            tone="must-not"
            clauses={verdict.ticket.mustNot}
            verdict={verdict}
            sheet={sheet}
            onAbout={onAbout}
          />
        </div>
        <Cautions cautions={verdict.cautions} onTag />
      </div>
      {printing && <TagOnPaper head={head} verdict={verdict} onPrinted={() => setPrinting(false)} />}
    </section>
  );
}

interface TextProps extends Props {
  readonly title: string;
  readonly tone: 'may' | 'must-not';
  readonly clauses: readonly Clause[];
}

function TicketText({ title, tone, clauses, verdict, sheet, onAbout }: TextProps) {
  return (
    <div className={`ticket-text is-${tone}`}>
      <h3>{title}</h3>
      {clauses.length === 0 && <p className="soft">Nothing to write here.</p>}
      <ul>
        {clauses.map((clause) => (
          <li key={clause.text}>
            {clause.because.length === 0 ? (
              clause.text
            ) : (
              <details>
                <summary>{clause.text}</summary>
                <ul className="reasons">
                  {clause.because.map((reason) => (
                    <ReasonLine key={JSON.stringify(reason)} reason={reason} verdict={verdict} sheet={sheet} onAbout={onAbout} />
                  ))}
                </ul>
              </details>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

interface ReasonProps {
  readonly reason: Reason;
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
  onAbout(name: Name): void;
}

/** One reason of a clause, leading to where it stands. */
function ReasonLine({ reason, verdict, sheet, onAbout }: ReasonProps) {
  const words = useWords();
  const leading = (text: string, lead: () => void) => (
    <li>
      <button type="button" className="link" onClick={lead}>
        {text}
      </button>
    </li>
  );
  switch (reason.kind) {
    case 'observation': {
      const observation = sheet.observations.find((one) => one.id === reason.observation);
      if (observation === undefined) return <li>{reason.observation}</li>;
      const said = sayObservation(words.feature(observation.feature), observation, words.unit);
      return leading(`${words.slotName(observation.slot)}: ${said}`, () => leadTo(reason.observation));
    }
    case 'absent':
      return (
        <li>
          <TermsText text={`The ${words.slotName(reason.slot)} is not with the unit`} />
        </li>
      );
    case 'joint':
      return <li>Joint: {words.jointName(reason.joint)}</li>;
    case 'rule':
      return (
        <li>
          <TermsText text={`What the name asks of the ${words.slotName(reason.slot)}`} />
        </li>
      );
    case 'name': {
      const name = verdict.names.find((one) => one.name.id === reason.name);
      if (name === undefined) return <li>{reason.name}</li>;
      return leading(`${name.name.text}: ${name.status}`, () => onAbout(name.name));
    }
    case 'claim':
      return <li>{verdict.claim?.sentences.join(' ')}</li>;
    case 'finding':
      return <li>{verdict.findings[reason.index]?.sentence}</li>;
    case 'caution':
      return <li>{verdict.cautions[reason.index]}</li>;
  }
}
