import type { ReactNode } from 'react';
import type { SourceId } from '../../reasoner/index.ts';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';

/** What every page of the atlas shares: waiting, trouble in its own words, or the page; and that it is invented, where it could be taken for what is not. */
export function PageFrame<T extends { readonly source: SourceId }>({
  asked,
  children,
}: {
  readonly asked: Asked<T>;
  readonly children: (page: T) => ReactNode;
}) {
  const page = latest(asked);
  const words = useWords();
  return (
    <>
      {asked.state === 'trouble' && <TroubleNote lead="This page could not be read." trouble={asked.trouble} />}
      {page === null && asked.state === 'waiting' && <p className="soft">Reading…</p>}
      {page !== null && words.mixed && words.isInvented(page.source) && (
        <p>
          <span className="invented-tag">invented: no real maker, name or figure is in it</span>
        </p>
      )}
      {page !== null && children(page)}
    </>
  );
}

/** Years as the trade writes them; an unknown end is not an open one. */
export function sayYears(from: number | null, to: number | null): string {
  if (from === null && to === null) return 'years not known';
  return `${from ?? 'not known'} to ${to ?? 'today or not known'}`;
}
