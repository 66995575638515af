import './told.css';
import { useEffect, useRef } from 'react';
import type { CaseWould } from '../../reasoner/index.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import type { CasesTold, NotMade } from './casesRun.ts';
import { Judging } from './Judging.tsx';
import { SayTold } from './SayTold.tsx';
import { sayCasesTold } from './sayCasesTold.ts';
import { useCasesWould } from './useCasesWould.ts';

/** So many are shown; they are the worst. */
const most = 40;

interface Props {
  /** Null where the change is not settled, or has faults. */
  readonly of: NotMade | null;
  /** How many cases there are; null where what would follow of the change is not worked out yet. */
  readonly cases: number | null;
}

/** What saved cases would be told of a change: counted first, judged where that is asked, and those that would be told otherwise listed. */
export function CasesWould({ of, cases }: Props) {
  const { stands, before, start, stop } = useCasesWould(of, cases);
  const pressed = useRef(false);
  const summary = useRef<HTMLParagraphElement>(null);
  const isTold = stands.state === 'done';
  useEffect(() => {
    // The button that was pressed is gone.
    if (isTold && pressed.current && (document.activeElement ?? document.body) === document.body) summary.current?.focus();
    if (isTold) pressed.current = false;
  }, [isTold]);
  const press = (): void => {
    pressed.current = true;
    if (stands.state === 'running') stop();
    else start();
  };
  const all = isTold && stands.result.complete;
  return (
    <div className="cases-would">
      {stands.state === 'trouble' && <TroubleNote lead="Saved cases could not be judged." trouble={stands.trouble} />}
      {isTold && (
        <>
          <p ref={summary} tabIndex={-1}>
            {sayCasesTold(stands.result)}
          </p>
          <CaseRows told={stands.result} />
        </>
      )}
      {cases !== null && cases > 0 && !all && (
        // Said by the bar itself as it fills, and not again with every case.
        <div className="judging no-print" aria-live="off">
          {stands.state === 'running' ? (
            <Judging judged={stands.judged} of={stands.of} />
          ) : (
            !isTold && <span>{sayMany(cases, 'saved case')} would be judged again.</span>
          )}
          <button type="button" className="button" onClick={press}>
            {stands.state === 'running' ? 'Stop here' : isTold ? 'Judge all of them' : cases === 1 ? 'Judge it now' : 'Judge them now'}
          </button>
        </div>
      )}
      {before !== null && (
        <details className="told-before">
          <summary>Judged before, of the change or the atlas as it stood then; not of what stands here now</summary>
          <p>{sayCasesTold(before.result)}</p>
          <CaseRows told={before.result} />
        </details>
      )}
    </div>
  );
}

function CaseRows({ told: { cases, differ } }: { readonly told: CasesTold }) {
  const shown = cases.slice(0, most);
  if (shown.length === 0) return null;
  return (
    <>
      <ul className="told-list">
        {shown.map((one) => (
          <CaseRow key={one.sheet} one={one} />
        ))}
      </ul>
      {differ > shown.length && <p className="small soft">and {differ - shown.length} more</p>}
    </>
  );
}

function CaseRow({ one }: { readonly one: CaseWould }) {
  const title = one.title === '' ? 'untitled unit' : one.title;
  const ticket = one.how === 'told otherwise' && one.differs.every((each) => each === 'ticket');
  return (
    <li aria-label={`Case ${one.number}: ${title}`}>
      <a href={hrefOf({ screen: 'case', sheet: one.sheet })}>
        {one.number} {title}
      </a>
      <dl className="told-both">
        <dt>Is judged</dt>
        <dd>
          {one.how === 'judged again' ? (
            <Unjudged faults={one.faults}>It cannot be judged.</Unjudged>
          ) : (
            <SayTold told={one.is} beside={one.how === 'told otherwise' ? one.would : one.is} ticket={ticket} />
          )}
        </dd>
        <dt>Would be judged</dt>
        <dd>
          {one.how === 'judged no more' ? (
            <Unjudged faults={one.faults}>It could not be judged any more.</Unjudged>
          ) : (
            <SayTold told={one.would} beside={one.how === 'told otherwise' ? one.is : one.would} ticket={ticket} />
          )}
        </dd>
      </dl>
      {one.how === 'told otherwise' && <OtherParts slots={one.slots} />}
    </li>
  );
}

/** Where other parts would remain: by name where they were few enough, counted where they were not. */
function OtherParts({ slots }: Pick<Extract<CaseWould, { readonly how: 'told otherwise' }>, 'slots'>) {
  const named = slots.filter(({ gone, come }) => gone.length + come.length > 0);
  const others = slots.length - named.length;
  return (
    <>
      {named.map(({ slot, name, gone, come }) => (
        <p key={slot} className="small soft">
          In the {name}
          {gone.length > 0 && ` no longer possible: ${gone.join(', ')}.`}
          {come.length > 0 && ` ${gone.length > 0 ? 'Then' : 'then'} possible: ${come.join(', ')}.`}
        </p>
      ))}
      {others > 0 && (
        <p className="small soft">
          {named.length > 0 ? `In ${sayMany(others, 'slot')} more` : `In ${sayMany(others, 'slot')}`} other parts would remain, too many to
          name.
        </p>
      )}
    </>
  );
}

function Unjudged({ faults, children }: { readonly faults: readonly string[]; readonly children: string }) {
  return (
    <>
      <p>{children}</p>
      {faults.map((fault) => (
        <p key={fault} className="small">
          {fault}
        </p>
      ))}
    </>
  );
}
