import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { ClaimLine } from './ClaimLine.tsx';
import { rungWords } from './rungWords.ts';

interface Props {
  readonly verdict: VerdictAtOnce;
  /** Nothing is claimed and nothing entered: there is nothing to name yet. */
  readonly empty: boolean;
  /** Leads to all the reasons. */
  onWhy(): void;
  /** Leads to every name judged. */
  onNames(): void;
}

/** What was claimed and what became of it; the honest name on its plate; how many names above it are still open. Announced when it changes. */
export function Headline({ verdict, empty, onWhy, onNames }: Props) {
  const [first, ...others] = verdict.names.filter((one) => verdict.honest.includes(one.name.id));
  if (empty)
    return (
      <header className="headline-block" aria-live="polite" aria-atomic="true">
        <h2 className="headline is-blank">No entry yet</h2>
        <p className="soft">
          Write what the unit is offered as, then what you see on it, slot by slot. What it may be called stands here after the first entry,
          with the words for its ticket.
        </p>
      </header>
    );
  const stillOpen = <StillOpen open={verdict.open} onNames={onNames} />;
  return (
    <header className="headline-block" aria-live="polite" aria-atomic="true">
      <ClaimLine verdict={verdict} onWhy={onWhy} />
      {first?.name.rung === 'parts' && (
        <h2 className="headline is-blank">
          {verdict.open === 0 ? 'No name stands' : 'No name stands yet'}: it is to be called by its parts. {stillOpen}
        </h2>
      )}
      {first !== undefined && first.name.rung !== 'parts' && (
        <div className="plate">
          <h2 className="headline">
            <span className="fresh" key={first.name.id}>
              {first.name.text}
            </span>
          </h2>
          <p className="plate-foot">
            <StatusMark status={first.status} /> <span className="rung">{rungWords[first.name.rung]}</span> {stillOpen}
          </p>
        </div>
      )}
      {others.length > 0 && <p className="soft small">The same parts also carry: {others.map((one) => one.name.text).join('; ')}.</p>}
    </header>
  );
}

/** The tag names what is still open above the honest name, and the list of names says what would settle each. */
function StillOpen({ open, onNames }: { readonly open: number; onNames(): void }) {
  if (open === 0) return null;
  return (
    <button type="button" className="link no-print open-line" onClick={onNames}>
      {open === 1 ? '1 name that says more is still open' : `${open} names that say more are still open`}
    </button>
  );
}
