import { useState } from 'react';
import type { BuildClause, BuildReason, Plan, Status } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { Replaced } from '../verdict/Replaced.tsx';
import { rungWords } from '../verdict/rungWords.ts';
import { sayMinutes } from '../verdict/sayMinutes.ts';

const firstOpen = 6;

const thenWords: Readonly<Record<Status, string>> = {
  stands: 'it stands',
  open: 'it is still open',
  'ruled out': 'it is still ruled out: not enough by itself',
};

/** What the build may be called, what it could still become, and both texts for the ticket. */
export function BuildName({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  const [all, setAll] = useState(false);
  const named = (ids: readonly string[]) => plan.names.filter(({ name }) => ids.includes(name.id));
  const open = named(plan.open);
  const claim = plan.claim === null ? null : (plan.names.find(({ name }) => name.id === plan.claim?.name) ?? null);
  return (
    <section className="block" id="plan-name" tabIndex={-1} aria-labelledby="plan-name-title">
      <h2 id="plan-name-title" className="head">
        Name
      </h2>
      <ul className="build-names" aria-label="Honest name">
        {named(plan.honest).map(({ name, status }) => (
          <li key={name.id}>
            <b>{name.text}</b> <span className="small soft">{rungWords[name.rung]}</span> <StatusMark status={status} />
          </li>
        ))}
      </ul>
      {open.length > 0 && (
        <p className="small">
          <span className="soft">Still to be had: </span>
          {open
            .slice(0, all ? open.length : firstOpen)
            .map(({ name }) => name.text)
            .join('; ')}
          {open.length > firstOpen && !all && (
            <button type="button" className="button plain" onClick={() => setAll(true)}>
              {open.length - firstOpen} more
            </button>
          )}
        </p>
      )}
      {claim !== null && (
        <div className="claim-answer">
          <p>
            To be sold as {claim.name.text}: <StatusMark status={claim.status} />
          </p>
          {claim.conflicts !== null && claim.conflicts.found.length > 0 && (
            <ul className="plain-list small">
              {claim.conflicts.found.map(({ sentence }) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          )}
          {plan.swaps !== null && plan.swaps.found.length > 0 && (
            <details className="small">
              <summary>What would bring the name back</summary>
              <ul className="plain-list">
                {plan.swaps.found.map((swap) => (
                  <li key={swap.slots.join()}>
                    {swap.parts.map((choice) => (
                      <span key={choice.slot} className="swap-slot">
                        {words.slotName(choice.slot)}: <Replaced choice={choice} />
                      </span>
                    ))}
                    {swap.plates.map((slot) => (
                      <span key={slot} className="swap-slot">
                        {words.slotName(slot)}: only the maker can confirm or issue one
                      </span>
                    ))}
                    <span className="soft">
                      {swap.parts.length > 0 && `${sayMinutes(swap)} to exchange, then `}
                      {swap.parts.length === 0 && 'then '}
                      {thenWords[swap.leaves]}
                    </span>
                  </li>
                ))}
              </ul>
            </details>
          )}
        </div>
      )}
      <div className="ticket">
        <TicketText title="How it may be described" tone="may" clauses={plan.ticket.may} plan={plan} />
        <TicketText title="How it must not be described" tone="must-not" clauses={plan.ticket.mustNot} plan={plan} />
      </div>
    </section>
  );
}

interface TextProps {
  readonly title: string;
  readonly tone: 'may' | 'must-not';
  readonly clauses: readonly BuildClause[];
  readonly plan: Plan;
}

function TicketText({ title, tone, clauses, plan }: TextProps) {
  return (
    <div className={`ticket-text is-${tone}`}>
      <h3>{title}</h3>
      {clauses.length === 0 && <p className="soft">Nothing to write here.</p>}
      <ul>
        {clauses.map(({ text, because }) => (
          <li key={text}>
            {because.length === 0 ? (
              text
            ) : (
              <details>
                <summary>{text}</summary>
                <ul className="reasons">
                  {because.map((reason) => (
                    <li key={JSON.stringify(reason)}>
                      <ReasonText reason={reason} plan={plan} />
                    </li>
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

function ReasonText({ reason, plan }: { readonly reason: BuildReason; readonly plan: Plan }) {
  const words = useWords();
  switch (reason.kind) {
    case 'chosen':
      return `${words.slotName(reason.slot)}: ${plan.slots.find(({ slot }) => slot === reason.slot)?.text ?? 'chosen'}`;
    case 'work':
      return plan.works[reason.index]?.sentence ?? 'a work of this build';
    case 'joint':
      return `Joint: ${words.jointName(reason.joint)}`;
    case 'rule':
      return `What the name asks of the ${words.slotName(reason.slot)}`;
    case 'name': {
      const name = plan.names.find((one) => one.name.id === reason.name);
      return name === undefined ? reason.name : `${name.name.text}: ${name.status}`;
    }
    case 'absent':
      return `The ${words.slotName(reason.slot)} is left out`;
    case 'observation':
      return 'What was measured on the part in hand';
    case 'claim':
      return plan.claim?.sentences.join(' ') ?? 'the name it is to be sold by';
    case 'finding':
      return plan.findings[reason.index]?.sentence ?? 'a finding of this build';
    case 'caution':
      return plan.cautions[reason.index] ?? 'a caution';
  }
}
