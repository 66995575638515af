import { useCallback, useEffect, useRef, useState } from 'react';
import { tellCopied } from '../look/copied.ts';
import { copyText, onNextCopy } from '../look/copyText.ts';
import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';

/**
 * Copies a text, and what became of it. Another text has not been copied yet. Where the system refuses it, whatever is copied next by the copy key is this text.
 */
export function useCopied(text: () => string): { readonly copied: 'no' | 'yes' | 'refused'; copy(): void } {
  const [last, setLast] = useState<{ readonly text: string; readonly copied: 'yes' | 'refused' } | null>(null);
  const now = useRef(text);
  now.current = text;
  const copy = useCallback(() => {
    const copying = now.current();
    const done = (): void => {
      setLast({ text: copying, copied: 'yes' });
      tellCopied(copying);
    };
    void copyText(copying).then((copied) => (copied ? done() : setLast({ text: copying, copied: 'refused' })));
  }, []);
  const refused = last?.copied === 'refused' ? last.text : null;
  useEffect(() => {
    if (refused === null) return;
    return onNextCopy(refused, () => {
      setLast({ text: refused, copied: 'yes' });
      tellCopied(refused);
    });
  }, [refused]);
  return { copied: last !== null && last.text === text() ? last.copied : 'no', copy };
}

/** F9 from anywhere on the screen, so that the words are copied without the hands leaving the entries. */
export function useTicketKey(copy: () => void): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!presses(event, keys.unit.lines.copy)) return;
      event.preventDefault();
      copy();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [copy]);
}
