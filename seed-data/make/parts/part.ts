import type { FactDraft, PartDraft } from '../pack/draft.ts';

/** Everything about a part but its dimensions. */
export interface PartHead {
  readonly id: string;
  readonly name: string;
  readonly maker: string | null;
  readonly numbers: readonly string[];
  readonly source: string;
  readonly patternOf?: string;
  readonly supersedes?: string;
}

/** A part of a slot with facts given by short names (`exducer` for `compressor-wheel-exducer`). */
export const partOf = (slot: string, head: PartHead, facts: Readonly<Record<string, FactDraft>>): PartDraft => ({
  ...head,
  slot,
  facts: Object.fromEntries(Object.entries(facts).map(([short, fact]) => [`${slot}-${short}`, fact])),
});
