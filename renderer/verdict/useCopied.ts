import { useCallback, useEffect, useRef, useState } from 'react';
import { tellCopied } from '../look/copied.ts';
import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';

/** Copies a text, and what became of it. Another text has not been copied yet. */
export function useCopied(text: () => string): { readonly copied: 'no' | 'yes' | 'refused'; copy(): void } {
  const [last, setLast] = useState<{ readonly text: string; readonly copied: 'yes' | 'refused' } | null>(null);
  const now = useRef(text);
  now.current = text;
  const copy = useCallback(() => {
    const copying = now.current();
    navigator.clipboard.writeText(copying).then(
      () => {
        setLast({ text: copying, copied: 'yes' });
        tellCopied(copying);
      },
      () => setLast({ text: copying, copied: 'refused' }),
    );
  }, []);
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
