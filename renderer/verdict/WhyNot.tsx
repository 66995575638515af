import { useMemo, useState } from 'react';
import type { NameTold, VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Name, Sheet, Status } from '../../reasoner/index.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { ConflictPanel } from '../graph/ConflictPanel.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { OtherReadings } from './OtherReadings.tsx';
import { ReadingOfClaim } from './ReadingOfClaim.tsx';
import { Swaps } from './Swaps.tsx';

interface Props {
  readonly verdict: VerdictAtOnce;
  readonly sheet: Sheet;
  /** The name asked about: the claimed one, or one picked from the list of names. */
  readonly name: Name | null;
  /** What the verdict says of it; null where it does not speak of it, and that is asked for. */
  readonly known: NameTold | null;
  readonly picked: boolean;
  onBack(): void;
}

/** Why a name is where it is: sentences, the reasons against it with their graph, and what would bring it back. */
export function WhyNot({ verdict, sheet, name, known, picked, onBack }: Props) {
  const words = useWords();
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const missing = name !== null && (known === null || (known.status === 'ruled out' && (known.conflicts === null || known.swaps === null)));
  // A longer search is made only when asked, and no further than for the entries it was asked about.
  const [longerFor, setLongerFor] = useState<string | null>(null);
  const question = name === null ? null : JSON.stringify([name.id, matters]);
  const all = question !== null && longerFor === question;
  const ask = name !== null && (missing || all) ? { sheet: matters, name: name.id, ...(all ? { all } : {}) } : null;
  const explained = useAsk('verdict.explain', ask);
  const last = latest(explained);
  // The answer to an earlier question may be of another name.
  const answer = ask !== null && last?.name.id === name?.id ? last : missing ? null : known;
  const { claim } = verdict;
  // What everything against it rests on stands in the headline; the reasons below say the rest in full.
  const said = claim !== null && claim.restsOn.length > 0 ? 1 : 0;
  const hasConflicts = (answer?.conflicts?.found.length ?? 0) > 0;
  const title = picked && name !== null ? `Why: ${name.text}` : claim === null ? 'Nothing is claimed' : claimTitle(claim.status);
  return (
    <section className="block" id="verdict-why" tabIndex={-1} aria-labelledby="verdict-why-title">
      <div className="block-head">
        <h2 id="verdict-why-title" className="head">
          {title}
        </h2>
        {picked && (
          <>
            {answer !== null && <StatusMark status={answer.status} />}
            <button type="button" className="button plain no-print" onClick={onBack}>
              Back to the claimed name
            </button>
          </>
        )}
      </div>
      {!picked && claim === null && (
        <p className="soft">
          No name is claimed for this unit. Enter what it is offered as, or pick a name under Names to see what speaks against it.
        </p>
      )}
      {!picked && claim !== null && (
        <>
          <ul className="sentences">
            {claim.sentences.slice(said, hasConflicts && claim.others.length === 0 ? said + 1 : undefined).map((sentence) => (
              <li key={sentence}>
                <TermsText text={sentence} />
              </li>
            ))}
          </ul>
          {[claim, ...claim.others].map(({ reading }) => (
            <ReadingOfClaim key={reading.model} reading={reading} shared={claim.others.length > 0} />
          ))}
          <OtherReadings claim={claim} sheet={matters} />
        </>
      )}
      {picked && answer?.status === 'open' && (
        <p>
          Not settled yet: <TermsText text={answer.unsettled.map((slot) => words.slotName(slot)).join(', ')} />
          {answer.unsettled.length === 1 ? ' still holds' : ' still hold'} both parts this name allows and parts it does not.
        </p>
      )}
      {missing && explained.state === 'trouble' && <TroubleNote lead="The reasons could not be worked out." trouble={explained.trouble} />}
      {missing && explained.state === 'waiting' && answer === null && <p className="soft">Working out the reasons…</p>}
      {answer?.conflicts && answer.conflicts.found.length > 0 && (
        <ConflictPanel
          conflicts={answer.conflicts}
          sheet={sheet}
          name={answer.name}
          label={`Reasons against ${answer.name.text}`}
          of={{ sheet: matters, name: answer.name.id, ...(all && answer === last ? { all } : {}) }}
          onMore={all ? undefined : () => setLongerFor(question)}
        />
      )}
      {answer?.swaps && <Swaps swaps={answer.swaps} name={answer.name} sheet={matters} />}
    </section>
  );
}

const claimTitle = (status: Status): string => {
  switch (status) {
    case 'ruled out':
      return 'Why not the claimed name';
    case 'open':
      return 'Why the claimed name is open';
    case 'stands':
      return 'Why the claimed name stands';
  }
};
