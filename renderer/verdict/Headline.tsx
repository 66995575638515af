import type { NameAnswer, NameId, Verdict } from '../../reasoner/index.ts';
import { StatusMark } from '../look/StatusMark.tsx';

const rungWords: Record<NameAnswer['name']['rung'], string> = {
  model: 'the whole unit, as a model',
  'model with options': 'a model with catalogued options',
  'model with service parts replaced': 'a model, service parts replaced',
  'all parts': 'every part is one model’s; the plate does not say so',
  hybrid: 'a hybrid: a named core with another housing',
  core: 'the core only; the housings name nothing',
  family: 'the family only',
  'pattern core': 'a pattern core, no maker’s name',
  'pattern family': 'a pattern core after a family, no maker’s name',
  'family parts': 'parts of one family, of no one model',
  parts: 'no name: a list of parts',
};

/** The honest name and its status, then the claimed name's status and the reading everything against it rests on, then what is open. Announced when it changes. */
export function Headline({ verdict }: { readonly verdict: Verdict }) {
  const of = (ids: readonly NameId[]) => verdict.names.filter((one) => ids.includes(one.name.id));
  const honest = of(verdict.honest);
  const open = of(verdict.open);
  const [first, ...others] = honest;
  return (
    <header className="headline-block" aria-live="polite" aria-atomic="true">
      {first !== undefined && (
        <>
          <p className="head">
            Honest name <span className="rung">{rungWords[first.name.rung]}</span>
          </p>
          <h2 className="headline">
            <span className="fresh" key={first.name.id}>
              {first.name.text}
            </span>{' '}
            <StatusMark status={first.status} />
          </h2>
          {others.length > 0 && <p className="soft">The same parts also carry: {others.map((one) => one.name.text).join('; ')}.</p>}
        </>
      )}
      {verdict.claim !== null && (
        <p className="claim-line">
          <span className="head">Offered as</span> <q>{verdict.claim.text}</q> <StatusMark status={verdict.claim.status} />
        </p>
      )}
      {verdict.claim !== null && verdict.claim.restsOn.length > 0 && <p className="look-again">{verdict.claim.sentences[0]}</p>}
      {open.length > 0 && (
        <p className="open-line">
          <StatusMark status="open" bare /> Still open:{' '}
          {open.slice(0, 3).map((one, index) => (
            <span key={one.name.id}>
              {index > 0 && '; '}
              <b>{one.name.text}</b>
            </span>
          ))}
          {open.length > 3 && ` and ${open.length - 3} more`}
        </p>
      )}
    </header>
  );
}
