import { useEffect } from 'react';
import { createPortal } from 'react-dom';
import type { Verdict } from '../../reasoner/index.ts';
import { Letterhead } from '../look/Letterhead.tsx';
import { mayTitle, mustNotTitle, type TagClaim, type TagHead, tagHead } from './ticketText.ts';

interface Props {
  readonly head: TagHead;
  readonly verdict: Pick<Verdict, 'cautions' | 'ticket'> & TagClaim;
  onPrinted(): void;
}

/** The tag alone on a small sheet (A6), instead of the window: printed as soon as it is drawn. */
export function TagOnPaper({ head, verdict, onPrinted }: Props) {
  useEffect(() => {
    const root = document.documentElement;
    root.dataset.prints = 'tag';
    // The letterhead's picture is fetched; one frame more and it is there where it is kept.
    const frame = requestAnimationFrame(() => {
      window.print();
      onPrinted();
    });
    return () => {
      cancelAnimationFrame(frame);
      delete root.dataset.prints;
    };
  }, [onPrinted]);
  return createPortal(
    <div className="tag-paper" aria-hidden="true">
      <Letterhead onPaper />
      <p className="tag-paper-head">{tagHead(head, verdict)}</p>
      <h2>{mayTitle}</h2>
      <ul>
        {verdict.ticket.may.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <h2>{mustNotTitle}</h2>
      <ul>
        {verdict.ticket.mustNot.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <ul className="tag-paper-cautions">
        {verdict.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>,
    document.body,
  );
}
