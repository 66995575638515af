import { useId, useState } from 'react';
import type { Assumptions } from '../../reasoner/index.ts';
import { plain } from '../values/figures.ts';
import { type Assumed, assumed, percentOf, readPercent } from './assumed.ts';
import type { OddsHeld } from './useOdds.ts';

/** What the odds take for granted, one step away, in sentences that can be changed. The window remembers them. */
export function AssumptionsForm({ assumptions: answered, held }: { readonly assumptions: Assumptions; readonly held: OddsHeld }) {
  const { own, assume } = held;
  const assumptions = own ?? answered;
  // The fields begin anew when the figures are set back.
  const [round, setRound] = useState(0);
  return (
    <details className="assumptions">
      <summary>
        What the odds take for granted: {percentOf(assumptions.stranger)} % of units are of no listed model,{' '}
        {percentOf(assumptions.swapped)} % of parts were swapped, {percentOf(assumptions.unlisted)} % of those for unlisted ones,{' '}
        {percentOf(assumptions.misfit)} % of the listed ones do not fit, {percentOf(assumptions.slip)} % of entries are slips
        {own !== null && <b> (the shop’s own)</b>}
      </summary>
      {assumed.map((each) => (
        <AssumedField
          key={`${each.key} ${round}`}
          of={each}
          share={assumptions[each.key]}
          onShare={(share) => assume({ ...assumptions, [each.key]: share }, assumptions)}
        />
      ))}
      <p>A measured size is off by about its stated u: u is taken as one standard deviation.</p>
      <p className="small soft">The figures to start from are guesses, not measurements: common practice, no source.</p>
      <button
        type="button"
        className="button no-print"
        disabled={own === null}
        onClick={() => {
          assume(null, assumptions);
          setRound(round + 1);
        }}
      >
        Back to the starting figures
      </button>
    </details>
  );
}

function AssumedField({ of, share, onShare }: { readonly of: Assumed; readonly share: number; onShare(share: number): void }) {
  // What is being typed; null shows the figure in force.
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed ?? percentOf(share);
  const id = useId();
  const read = readPercent(text, of);
  return (
    <p className="assumed">
      {of.before}{' '}
      <input
        className="field number"
        inputMode="decimal"
        autoComplete="off"
        aria-label={of.label}
        aria-invalid={!read.ok}
        aria-describedby={`${id}-bounds`}
        value={text}
        onChange={(event) => {
          setTyped(event.target.value);
          const next = readPercent(event.target.value, of);
          if (next.ok && next.value !== share) onShare(next.value);
        }}
        onBlur={() => read.ok && setTyped(null)}
      />{' '}
      %{of.after === '.' ? '.' : ` ${of.after}`}{' '}
      <span id={`${id}-bounds`} className={read.ok ? 'small soft' : 'editor-trouble'} role={read.ok ? undefined : 'alert'}>
        {read.ok
          ? `(${plain(of.least, 1)} to ${plain(of.greatest, 1)} %)`
          : `${read.sentence} The odds still take ${percentOf(share)} % for granted.`}
      </span>
    </p>
  );
}
