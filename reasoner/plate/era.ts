import type { Era } from '../atlas/number-pattern.ts';

/** Whether two spans of years have a year in common; an open end is no objection. */
export const meet = (a: Era, b: Era): boolean =>
  (a.from === null || b.to === null || a.from <= b.to) && (b.from === null || a.to === null || b.from <= a.to);

/** The years two spans have in common; null where they have none. */
export const overlap = (a: Era, b: Era): Era | null => {
  const later = (x: number | null, y: number | null) => (x === null ? y : y === null ? x : Math.max(x, y));
  const sooner = (x: number | null, y: number | null) => (x === null ? y : y === null ? x : Math.min(x, y));
  return meet(a, b) ? { from: later(a.from, b.from), to: sooner(a.to, b.to) } : null;
};

/** The least span that holds both. */
export const spanOf = (eras: readonly Era[]): Era => ({
  from: eras.some(({ from }) => from === null) ? null : Math.min(...eras.map(({ from }) => from as number)),
  to: eras.some(({ to }) => to === null) ? null : Math.max(...eras.map(({ to }) => to as number)),
});
