import type { SheetDraft } from '../pack/draft.ts';

type ObservationDraft = SheetDraft['observations'][number];
export type Entry = Omit<ObservationDraft, 'id'>;

/** Short forms for observations: slot, short feature name, what was seen. */

const entry = (slot: string, short: string, value: ObservationDraft['value'], sure: ObservationDraft['sure'], note?: string): Entry => ({
  slot,
  feature: `${slot}-${short}`,
  value,
  sure,
  ...(note === undefined ? {} : { note }),
});

export const seenCount = (slot: string, short: string, from: number, to = from, note?: string): Entry =>
  entry(slot, short, { kind: 'count', from, to }, { kind: 'seen' }, note);
export const seenChoice = (slot: string, short: string, option: string, note?: string): Entry =>
  entry(slot, short, { kind: 'choice', option }, { kind: 'seen' }, note);
export const seenPresence = (slot: string, short: string, present: boolean, note?: string): Entry =>
  entry(slot, short, { kind: 'presence', present }, { kind: 'seen' }, note);
/** Letters, or null for "looked, and there are none". */
export const seenMark = (slot: string, short: string, text: string | null, note?: string): Entry =>
  entry(slot, short, { kind: 'mark', text }, { kind: 'seen' }, note);
/** mm or degrees, with the standard uncertainty in the same unit. */
export const measured = (slot: string, short: string, value: number, u: number, note?: string): Entry =>
  entry(slot, short, { kind: 'measure', value }, { kind: 'measured', u }, note);
/** What somebody said of it. */
export const told = (observation: Entry, note?: string): Entry => ({
  ...observation,
  sure: { kind: 'told' },
  ...(note === undefined ? {} : { note }),
});

interface SheetHead {
  readonly id: string;
  readonly title: string;
  readonly story: string;
  readonly claimed?: readonly [maker: string | null, name: string];
}

const numbered = (entries: readonly Entry[]): ObservationDraft[] => entries.map((each, i) => ({ id: `o${i + 1}`, ...each }));

/** A unit that came in together. */
export const found = (head: SheetHead, entries: readonly Entry[], absent: readonly string[] = []): SheetDraft => ({
  id: head.id,
  title: head.title,
  story: head.story,
  kind: 'found',
  claimed: head.claimed?.[1] ?? null,
  claimedMaker: head.claimed?.[0] ?? null,
  observations: numbered(entries),
  absent,
  chosen: {},
});

/** A build on paper. */
export const planned = (head: SheetHead, chosen: Readonly<Record<string, string>>, entries: readonly Entry[] = []): SheetDraft => ({
  id: head.id,
  title: head.title,
  story: head.story,
  kind: 'planned',
  claimed: head.claimed?.[1] ?? null,
  claimedMaker: head.claimed?.[0] ?? null,
  observations: numbered(entries),
  absent: [],
  chosen,
});
