import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { CheckEffects, CheckOutcome, NameId } from '../../reasoner/index.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { Chance, ChanceBar } from './Chance.tsx';
import { sayLeft, sayShare } from './oddsWords.ts';

interface Props {
  readonly effects: CheckEffects;
  readonly verdict: VerdictAtOnce;
  /** Uncertainty as it stands, bits. */
  readonly bits: number;
}

/** What a check can come to, likeliest first, and what each reading would do to the verdict whatever the odds. */
export function Outcomes({ effects, verdict, bits }: Props) {
  const { step, outcomes, rest } = effects;
  return (
    <div className="effects">
      {step !== null && (
        <p className={step.enough ? 'small' : 'small step-short'}>
          {step.sentence}
          {!step.enough && ' The instrument the atlas names for this check does not read so finely.'}
        </p>
      )}
      <ul className="outcomes" aria-label="What each reading would do">
        {outcomes.map((outcome) => (
          <OutcomeLine key={outcome.text} outcome={outcome} verdict={verdict} bits={bits} />
        ))}
      </ul>
      {rest > 0.0005 && <p className="small soft">Other readings, not shown: {sayShare(rest)}.</p>}
    </div>
  );
}

function OutcomeLine({
  outcome,
  verdict,
  bits,
}: {
  readonly outcome: CheckOutcome;
  readonly verdict: VerdictAtOnce;
  readonly bits: number;
}) {
  const honest = outcome.honest.map(({ text }) => text).join('; ');
  const stays = sameNames(
    outcome.honest.map(({ name }) => name),
    verdict.honest,
  );
  return (
    <li className="outcome">
      <div className="outcome-reading">
        <b>{outcome.text}</b>
        <ChanceBar chance={outcome.chance} />
        <Chance chance={outcome.chance} />
      </div>
      <dl>
        <dt>Honest name</dt>
        <dd>
          {stays ? 'stays ' : 'becomes '}
          {stays ? <span className="soft">{honest}</span> : <b>{honest}</b>}
          {outcome.open > 0 && (
            <span className="soft">
              , {outcome.open} {outcome.open === 1 ? 'name' : 'names'} open above it
            </span>
          )}
        </dd>
        {outcome.makesStand.length > 0 && <NameLine label="Would stand" names={outcome.makesStand} />}
        {outcome.rulesOut.length > 0 && <NameLine label="Rules out" names={outcome.rulesOut} />}
        {verdict.claim !== null && outcome.claim !== null && (
          <>
            <dt>The claim</dt>
            <dd>
              {outcome.claim === verdict.claim.status && 'stays '}
              <StatusMark status={outcome.claim} />
            </dd>
          </>
        )}
        <dt>Uncertainty</dt>
        <dd>{sayLeft(bits, outcome.bits)}</dd>
      </dl>
    </li>
  );
}

const firstShown = 2;

function NameLine({ label, names }: { readonly label: string; readonly names: CheckOutcome['rulesOut'] }) {
  const rest = names.slice(firstShown);
  return (
    <>
      <dt>{label}</dt>
      <dd>
        {names
          .slice(0, firstShown)
          .map(({ text }) => text)
          .join('; ')}
        {rest.length > 0 && (
          <details className="more-names">
            <summary>and {rest.length} more</summary>
            {rest.map(({ text }) => text).join('; ')}
          </details>
        )}
      </dd>
    </>
  );
}

const sameNames = (some: readonly NameId[], others: readonly NameId[]): boolean =>
  some.length === others.length && some.every((one) => others.includes(one));
