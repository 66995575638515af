import { useState } from 'react';
import type { Clause, NameId, Reason, Sheet, Verdict } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayObservation } from '../values/sayings.ts';
import { leadTo } from './leadTo.ts';

/** W1: the words for the ticket, whole sentences all. Every clause opens to what it rests on. */
export function Ticket({ verdict, sheet, onAbout }: { readonly verdict: Verdict; readonly sheet: Sheet; onAbout(name: NameId): void }) {
  return (
    <section className="block" id="verdict-ticket" tabIndex={-1} aria-labelledby="verdict-ticket-title">
      <h2 id="verdict-ticket-title" className="head">
        For the ticket
      </h2>
      <div className="ticket">
        <TicketText
          title="How it may be described"
          tone="may"
          clauses={verdict.ticket.may}
          verdict={verdict}
          sheet={sheet}
          onAbout={onAbout}
        />
        <TicketText
          title="How it must not be described"
          tone="must-not"
          clauses={verdict.ticket.mustNot}
          verdict={verdict}
          sheet={sheet}
          onAbout={onAbout}
        />
      </div>
    </section>
  );
}

interface TextProps {
  readonly title: string;
  readonly tone: 'may' | 'must-not';
  readonly clauses: readonly Clause[];
  readonly verdict: Verdict;
  readonly sheet: Sheet;
  onAbout(name: NameId): void;
}

function TicketText({ title, tone, clauses, verdict, sheet, onAbout }: TextProps) {
  const [copied, setCopied] = useState<'no' | 'yes' | 'refused'>('no');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(clauses.map((clause) => clause.text).join('\n'));
      setCopied('yes');
    } catch {
      setCopied('refused');
    }
  };
  return (
    <div className={`ticket-text is-${tone}`}>
      <div className="block-head">
        <h3>{title}</h3>
        <button
          type="button"
          className="button plain no-print"
          aria-label={`Copy “${title}”`}
          disabled={clauses.length === 0}
          onClick={() => void copy()}
        >
          Copy
        </button>
        <span role="status" className="small soft">
          {copied === 'yes' ? 'Copied' : copied === 'refused' ? 'The system refused; select the text instead' : ''}
        </span>
      </div>
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
  readonly verdict: Verdict;
  readonly sheet: Sheet;
  onAbout(name: NameId): void;
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
      const said = sayObservation(words.feature(observation.feature), observation, 'mm');
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
      return leading(`${name.name.text}: ${name.status}`, () => {
        onAbout(name.name.id);
        document.getElementById('verdict-why')?.scrollIntoView({ block: 'start' });
      });
    }
    case 'claim':
      return <li>{verdict.claim?.sentences.join(' ')}</li>;
    case 'finding':
      return <li>{verdict.findings[reason.index]?.sentence}</li>;
    case 'caution':
      return <li>{verdict.cautions[reason.index]}</li>;
  }
}
