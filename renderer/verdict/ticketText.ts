import type { Verdict } from '../../reasoner/index.ts';

/** What a tag says beside the verdict's own words. */
export interface TagHead {
  /** Of the case; null while it has none. */
  readonly number: string | null;
  /** As the window says days. */
  readonly day: string;
}

export const mayTitle = 'How it may be described';
export const mustNotTitle = 'How it must not be described';

/** Of a verdict, what was claimed of the unit. */
export interface TagClaim {
  readonly claim: { readonly text: string } | null;
}

/** The head of a tag in one line: `Case P-0012 · 29 Nov 2026 · offered as “Petrel 13 Cartridge”`. */
export const tagHead = ({ number, day }: TagHead, { claim }: TagClaim): string =>
  [...(number === null ? [] : [`Case ${number}`]), day, ...(claim === null ? [] : [`offered as “${claim.text}”`])].join(' · ');

/** The whole tag as text, for a ticket kept elsewhere: a line for each clause, whole sentences all (W1), and the cautions with them (F5). */
export function ticketText(head: TagHead, verdict: Pick<Verdict, 'ticket' | 'cautions'> & TagClaim): string {
  const block = (title: string, lines: readonly string[]) => (lines.length === 0 ? [] : [[title, ...lines].join('\n')]);
  return [
    tagHead(head, verdict),
    ...block(
      mayTitle,
      verdict.ticket.may.map(({ text }) => text),
    ),
    ...block(
      mustNotTitle,
      verdict.ticket.mustNot.map(({ text }) => text),
    ),
    ...block('Cautions', verdict.cautions),
  ].join('\n\n');
}
