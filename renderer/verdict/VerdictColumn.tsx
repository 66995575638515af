import './verdict.css';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { AnswerAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import type { OddsHeld } from '../odds/useOdds.ts';
import { Contradictions } from './Contradictions.tsx';
import { VerdictPages } from './VerdictPages.tsx';

interface Props {
  readonly asked: Asked<AnswerAtOnce, CallArgs<'verdict.of'>>;
  readonly odds: OddsHeld;
  readonly sheet: Sheet;
}

/** What follows from the sheet. A trouble is shown where the verdict stands; the verdict before it stays readable below. */
export function VerdictColumn({ asked, odds, sheet }: Props) {
  const words = useWords();
  const answer = latest(asked);
  return (
    <section
      className="verdict-column"
      aria-label="Verdict"
      aria-busy={asked.state === 'waiting'}
      data-state={asked.state}
      data-entries={asked.state === 'answered' ? asked.args.sheet.observations.length : undefined}
    >
      {asked.state === 'trouble' && asked.trouble.code === 'sheet-doubted' && (
        <p className="verdict-doubt" role="status">
          <strong>Asked first.</strong> {asked.trouble.sentence}
          {answer !== null && ' Below is the verdict before it.'}
        </p>
      )}
      {asked.state === 'trouble' && asked.trouble.code !== 'sheet-doubted' && (
        <TroubleNote lead="This sheet could not be judged." trouble={asked.trouble}>
          {answer !== null && <p className="small">Below is the verdict before the last entry.</p>}
        </TroubleNote>
      )}
      {answer === null && asked.state === 'waiting' && <p className="soft verdict-wait">Judging…</p>}
      {answer?.kind === 'contradiction' && <Contradictions answer={answer} sheet={sheet} />}
      {answer?.kind === 'verdict' && <VerdictPages verdict={answer} odds={odds} sheet={sheet} />}
      {answer !== null && (
        <p className="print-only small">Atlas: {words.vocabulary.packs.map((pack) => `${pack.title}, ${pack.edition}`).join('; ')}</p>
      )}
    </section>
  );
}
