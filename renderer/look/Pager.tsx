import './pager.css';
import { sayWhole } from '../values/figures.ts';

interface Props {
  /** What is paged, in the plural: `names`. */
  readonly what: string;
  /** The first row that is shown, from 0, and how many a page has. */
  readonly from: number;
  readonly size: number;
  readonly count: number;
  onFrom(from: number): void;
}

/** From page to page of a long list, with which rows these are and of how many. Nothing where one page is all. A key that leads nowhere keeps the focus it has. */
export function Pager({ what, from, size, count, onFrom }: Props) {
  if (count <= size) return null;
  const last = lastPage(count, size);
  const key = (words: string, to: number) => (
    <button
      type="button"
      className="button plain"
      aria-label={`${words} ${what}`}
      aria-disabled={to === from}
      onClick={() => to !== from && onFrom(to)}
    >
      {words}
    </button>
  );
  return (
    <nav className="pager no-print" aria-label={`Pages of ${what}`}>
      {key('First', 0)}
      {key('Earlier', Math.max(0, from - size))}
      <span role="status" className="small">
        {sayWhole(from + 1)} to {sayWhole(Math.min(from + size, count))} of {sayWhole(count)}
      </span>
      {key('Later', Math.min(last, from + size))}
      {key('Last', last)}
    </nav>
  );
}

/** Where the last page begins. */
const lastPage = (count: number, size: number): number => Math.max(0, Math.ceil(count / size) - 1) * size;
