import type { ObservationId } from '../../reasoner/index.ts';

/** Brings an entry of the sheet into sight and gives it the focus. */
export function leadTo(observation: ObservationId): void {
  const entry = document.querySelector<HTMLElement>(`[data-entry="${CSS.escape(observation)}"]`);
  entry?.scrollIntoView({ block: 'center' });
  entry?.focus();
}
