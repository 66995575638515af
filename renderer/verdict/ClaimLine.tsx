import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import { reasonsPhrase } from '../../reasoner/plain/reasons-phrase.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { StatusMark } from '../look/StatusMark.tsx';

interface Props {
  readonly verdict: VerdictAtOnce;
  /** Leads to all the reasons. */
  onWhy(): void;
}

/**
 * What was claimed, what became of it, and the first reason in the order of K1. A claim that all rests on one reading says that instead: it is not to be
 * missed for a reason that is only as good. Without a claim, why the unit disagrees with itself.
 */
export function ClaimLine({ verdict, onWhy }: Props) {
  const { claim, unit } = verdict;
  const against = claim === null ? unit : (verdict.names.find(({ name }) => name.id === claim.name)?.conflicts ?? null);
  const doubted = claim !== null && claim.restsOn.length > 0;
  const reason = doubted ? claim.sentences[0] : (against?.found[0]?.sentence ?? claim?.sentences[0]);
  const several = !doubted && against !== null && against.independent.count > 1;
  return (
    <p className={doubted ? 'claim-line look-again is-doubted' : 'claim-line'}>
      {claim === null ? (
        <span className="soft">Nothing is claimed: the unit is judged by what was entered.</span>
      ) : (
        <>
          <span className="head">Offered as</span> <q>{claim.text}</q> <StatusMark status={claim.status} />
        </>
      )}
      {reason !== undefined && (
        <>
          {' '}
          <TermsText text={reason} />{' '}
          <button type="button" className="link no-print small" onClick={onWhy}>
            {several ? `One of ${reasonsPhrase(against.independent)}` : 'Why'}
          </button>
        </>
      )}
    </p>
  );
}
