import { type KeyboardEvent, useRef } from 'react';

export const verdictPages = ['why', 'next', 'names', 'parts', 'photographs'] as const;
export type VerdictPage = (typeof verdictPages)[number];

const names: Record<VerdictPage, string> = {
  why: 'Why',
  next: 'What next',
  names: 'Names',
  parts: 'Parts left',
  photographs: 'Photographs',
};

interface Props {
  readonly page: VerdictPage;
  onPage(page: VerdictPage): void;
}

/** What stands under the answer, one page at a time, after the WAI-ARIA tabs pattern: left and right change the page. */
export function PageSwitch({ page, onPage }: Props) {
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
    event.preventDefault();
    const step = event.key === 'ArrowRight' ? 1 : -1;
    const other = verdictPages[(verdictPages.indexOf(page) + step + verdictPages.length) % verdictPages.length] ?? page;
    onPage(other);
    list.current?.querySelector<HTMLElement>(`#verdict-page-${other}`)?.focus({ preventScroll: true });
  };
  return (
    <div
      ref={list}
      id="verdict-pages"
      className="page-switch no-print"
      role="tablist"
      aria-label="What stands behind the answer"
      onKeyDown={onKeyDown}
    >
      {verdictPages.map((one) => (
        <button
          key={one}
          id={`verdict-page-${one}`}
          type="button"
          role="tab"
          aria-selected={page === one}
          aria-controls="verdict-page"
          tabIndex={page === one ? 0 : -1}
          onClick={() => onPage(one)}
        >
          {names[one]}
        </button>
      ))}
    </div>
  );
}
