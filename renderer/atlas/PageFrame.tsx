import type { ReactNode } from 'react';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';

/** What every page of the atlas shares: waiting, trouble in its own words, or the page. */
export function PageFrame<T>({ asked, children }: { readonly asked: Asked<T>; readonly children: (page: T) => ReactNode }) {
  const page = latest(asked);
  return (
    <>
      {asked.state === 'trouble' && <TroubleNote lead="This page could not be read." trouble={asked.trouble} />}
      {page === null && asked.state === 'waiting' && <p className="soft">Reading…</p>}
      {page !== null && children(page)}
    </>
  );
}

/** Years as the trade writes them; an unknown end is not an open one. */
export function sayYears(from: number | null, to: number | null): string {
  if (from === null && to === null) return 'years not known';
  return `${from ?? 'not known'} to ${to ?? 'today or not known'}`;
}
