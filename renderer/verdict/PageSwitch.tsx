import { type KeyboardEvent, useRef } from 'react';

export const verdictPages = ['verdict', 'next'] as const;
export type VerdictPage = (typeof verdictPages)[number];

const names: Record<VerdictPage, string> = { verdict: 'Verdict', next: 'What next' };

/** Two pages under one honest name, switched after the WAI-ARIA tabs pattern: left and right change the page. */
export function PageSwitch({ page, onPage }: { readonly page: VerdictPage; onPage(page: VerdictPage): void }) {
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
    event.preventDefault();
    const other = page === 'verdict' ? 'next' : 'verdict';
    onPage(other);
    list.current?.querySelector<HTMLElement>(`#verdict-page-${other}`)?.focus();
  };
  return (
    <div ref={list} className="page-switch" role="tablist" aria-label="What is shown" onKeyDown={onKeyDown}>
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
