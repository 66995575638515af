import { useEffect, useRef } from 'react';
import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';
import { useWindowKey } from '../look/useWindowKey.ts';
import { focusable, found } from './pointAt.ts';
import type { PointedAt } from './stepOf.ts';

/** What says that somebody looks elsewhere by himself. */
const touches = ['keydown', 'wheel', 'pointerdown', 'touchmove'] as const;

/**
 * Marks what a step points at, however often it is drawn anew; brings it into sight when the step comes up, and again
 * when something else (the focus going back, a form that closes) moves it out, until somebody presses or scrolls.
 * @param atOnce whether the first thing pointed at takes the focus as soon as it is there
 */
export function usePointed(point: PointedAt | null, atOnce: boolean): { readonly go: () => void } {
  const toGo = useRef(atOnce);
  const key = JSON.stringify(point);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for `point`, which is a new object at every entry.
  useEffect(() => {
    let marked: HTMLElement | null = null;
    let untouched = true;
    const touched = (): void => {
      untouched = false;
    };
    for (const event of touches) window.addEventListener(event, touched, { capture: true, passive: true });
    const sight = new IntersectionObserver(
      ([seen]) => {
        if (untouched && seen?.target === marked && seen.intersectionRatio < 1) marked?.scrollIntoView({ block: 'nearest' });
      },
      { threshold: [0, 1] },
    );
    const mark = (): void => {
      const now = found(point);
      if (now === marked) return;
      marked?.removeAttribute('data-guided');
      now?.setAttribute('data-guided', '');
      sight.disconnect();
      if (now !== null) sight.observe(now);
      if (marked === null) now?.scrollIntoView({ block: 'nearest' });
      if (now !== null && toGo.current) {
        toGo.current = false;
        focusable(now).focus();
      }
      marked = now;
    };
    mark();
    const watch = new MutationObserver(mark);
    watch.observe(document.body, { childList: true, subtree: true });
    return () => {
      watch.disconnect();
      sight.disconnect();
      for (const event of touches) window.removeEventListener(event, touched, { capture: true });
      marked?.removeAttribute('data-guided');
    };
  }, [key]);

  const go = (): void => {
    const pointed = found(point);
    if (pointed === null) return;
    pointed.scrollIntoView({ block: 'center' });
    focusable(pointed).focus();
  };
  useWindowKey((event) => {
    if (event.defaultPrevented || !presses(event, keys.guided.lines.go)) return;
    event.preventDefault();
    go();
  });
  return { go };
}
