import type { Status } from '../../reasoner/index.ts';

const tone: Record<Status, string> = { 'ruled out': 'is-out', open: 'is-open', stands: 'is-stands' };

/** A status told three ways: shape, word and tone. `bare` leaves the word to screen readers. */
export function StatusMark({ status, bare = false }: { readonly status: Status; readonly bare?: boolean }) {
  return (
    <span className={`status ${tone[status]}`} title={bare ? status : undefined}>
      <StatusShape status={status} />
      <span className={bare ? 'unseen' : undefined}>{status}</span>
    </span>
  );
}

/** Struck ring, broken ring, filled plate: told apart without colour. */
function StatusShape({ status }: { readonly status: Status }) {
  switch (status) {
    case 'ruled out':
      return (
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <circle cx="8" cy="8" r="6.2" fill="none" stroke="currentColor" strokeWidth="2" />
          <path d="M3.6 12.4 12.4 3.6" stroke="currentColor" strokeWidth="2" />
        </svg>
      );
    case 'open':
      return (
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <circle cx="8" cy="8" r="6.2" fill="none" stroke="currentColor" strokeWidth="2" strokeDasharray="4.2 2.3" />
        </svg>
      );
    case 'stands':
      return (
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <rect x="1" y="1" width="14" height="14" rx="3" fill="currentColor" />
          <path d="m4.2 8.3 2.6 2.6 5-5.6" fill="none" stroke="var(--leaf)" strokeWidth="2" />
        </svg>
      );
  }
}
