import { type RefObject, useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { axisHeight, marginWidth } from './drawing.ts';
import type { Paper } from './paperPlan.ts';
import type { TreeLayout } from './treeLayout.ts';
import type { TreeKey } from './treeNode.ts';

/** How wide an element is, as it changes. */
export function useWidth(element: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(980);
  useLayoutEffect(() => {
    const box = element.current;
    if (box === null) return;
    const measure = () => setWidth(box.clientWidth);
    measure();
    const resized = new ResizeObserver(measure);
    resized.observe(box);
    return () => resized.disconnect();
  }, [element]);
  return width;
}

/** Where a node is drawn: in its own row, or in the row of the nearest node above it that is. */
export function placeOf(layout: TreeLayout, key: TreeKey): { readonly x: number; readonly y: number } | null {
  const box = layout.boxOf(key);
  if (box !== null) return { x: box.x0, y: box.head };
  const band = layout.bands.find((one) => one.key === key || one.node.children.includes(key));
  return band === undefined ? null : { x: 0, y: band.head };
}

interface Anchor {
  /** The drawing stood at its top, and stays there. */
  readonly atTop: boolean;
  /** Candidates, the first of which is still drawn afterwards is kept where it was. */
  readonly rows: readonly { readonly key: TreeKey; readonly from: number }[];
  readonly year: number;
  readonly yearFrom: number;
}

/**
 * Call what is returned just before the layout changes: what is at hand, or else in the middle of the view, stays where it is on the screen, and so
 * does the year in the middle.
 */
export function useAnchor(scroller: RefObject<HTMLDivElement | null>, layout: TreeLayout, at: TreeKey | null): () => void {
  const kept = useRef<Anchor | null>(null);
  useLayoutEffect(() => {
    const [box, anchor] = [scroller.current, kept.current];
    kept.current = null;
    if (box === null || anchor === null) return;
    for (const { key, from } of anchor.atTop ? [] : anchor.rows) {
      const place = layout.boxOf(key)?.head ?? layout.bands.find((band) => band.key === key)?.head;
      if (place === undefined) continue;
      box.scrollTop = place - from;
      break;
    }
    box.scrollLeft = layout.axisFrom + (anchor.year - layout.years.first) * layout.yearWidth - anchor.yearFrom;
  }, [layout, scroller]);
  return () => {
    const box = scroller.current;
    if (box === null) return;
    const [top, height] = [box.scrollTop, box.clientHeight];
    const middle = top + (height - axisHeight) / 2;
    const isInView = ({ head }: { readonly head: number }) => head > top && head < top + height;
    const inView = layout.boxes.filter(isInView).sort((a, b) => Math.abs(a.head - middle) - Math.abs(b.head - middle));
    const found = at === null ? null : layout.boxOf(at);
    const atHand = found !== null && isInView(found) ? found : undefined;
    const rows = [...(atHand === undefined ? [] : [atHand]), ...inView, ...layout.bands].map(({ key, head }) => ({
      key,
      from: head - top,
    }));
    const yearFrom = (box.clientWidth - marginWidth) / 2;
    kept.current = {
      atTop: top < 8 && atHand === undefined,
      rows,
      year: layout.years.first + (box.scrollLeft + yearFrom - layout.axisFrom) / layout.yearWidth,
      yearFrom,
    };
  };
}

/** Scrolls the drawing as little as brings a node into view, when the node at hand changes. */
export function useBringIntoView(scroller: RefObject<HTMLDivElement | null>, layout: TreeLayout, at: TreeKey | null): void {
  const shown = useRef<TreeKey | null>(null);
  useEffect(() => {
    const box = scroller.current;
    if (box === null || at === null || shown.current === at) return;
    const place = placeOf(layout, at);
    if (place === null) return;
    shown.current = at;
    const [left, right] = [box.scrollLeft + 10, box.scrollLeft + box.clientWidth - marginWidth - 80];
    const [top, bottom] = [box.scrollTop + 16, box.scrollTop + box.clientHeight - axisHeight - 40];
    if (place.y < top) box.scrollTop = place.y - 40;
    else if (place.y > bottom) box.scrollTop = place.y - (bottom - top) + 20;
    if (place.x < left) box.scrollLeft = place.x - 40;
    else if (place.x > right) box.scrollLeft = place.x - (right - left) / 2;
  }, [scroller, layout, at]);
}

/** The drawing for paper is made when paper is, and gone after: a large tree need not stand in the document twice. */
export function usePaper(wanted: RefObject<Paper>, setPaper: (paper: Paper | null) => void): void {
  const set = useCallback((paper: Paper | null) => flushSync(() => setPaper(paper)), [setPaper]);
  useEffect(() => {
    const media = window.matchMedia('print');
    const before = () => set(wanted.current);
    const after = () => {
      set(null);
      wanted.current = 'A4';
    };
    const changed = () => (media.matches ? before() : after());
    window.addEventListener('beforeprint', before);
    window.addEventListener('afterprint', after);
    media.addEventListener('change', changed);
    return () => {
      window.removeEventListener('beforeprint', before);
      window.removeEventListener('afterprint', after);
      media.removeEventListener('change', changed);
    };
  }, [wanted, set]);
}
