import { useCallback, useLayoutEffect, useRef, useState } from 'react';
import { tellCopied } from '../look/copied.ts';
import { copyText, onNextCopy } from '../look/copyText.ts';
import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';
import { useWindowKey } from '../look/useWindowKey.ts';

/**
 * Copies a text, and what became of it. Another text has not been copied yet. Where the system refuses it, the copy key copies it as long as it is still the text.
 */
export function useCopied(text: () => string): { readonly copied: 'no' | 'yes' | 'refused'; copy(): void } {
  const [last, setLast] = useState<{ readonly text: string; readonly copied: 'yes' | 'refused' } | null>(null);
  const now = useRef(text);
  now.current = text;
  const done = useCallback((taken: string) => {
    setLast({ text: taken, copied: 'yes' });
    tellCopied(taken);
  }, []);
  const copy = useCallback(() => {
    const copying = now.current();
    void copyText(copying).then((taken) => (taken ? done(copying) : setLast({ text: copying, copied: 'refused' })));
  }, [done]);
  const copied = last !== null && last.text === text() ? last.copied : 'no';
  const refused = copied === 'refused' ? (last?.text ?? null) : null;
  // Before other words are painted: a key pressed in that moment must not copy those that stood there.
  useLayoutEffect(() => {
    if (refused === null) return;
    return onNextCopy(refused, () => done(refused));
  }, [refused, done]);
  return { copied, copy };
}

/** F9 from anywhere on the screen, so that the words are copied without the hands leaving the entries. */
export function useTicketKey(copy: () => void): void {
  useWindowKey((event) => {
    if (!presses(event, keys.unit.lines.copy)) return;
    event.preventDefault();
    copy();
  });
}
