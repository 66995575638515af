import type { Id, PartId, Sample, SheetId, SlotId } from '../../reasoner/index.ts';

export type SampleId = Id<'sample'>;

/** A sample as the shop keeps it: what was seen or measured, in a case, of a part of the atlas. It never alters the atlas by itself. */
export interface KeptSample extends Sample {
  readonly id: SampleId;
  readonly part: PartId;
  readonly slot: SlotId;
  /** What it was measured with; empty where nobody said. */
  readonly how: string;
  /** Of its case, `A-2026-0007`. */
  readonly number: string;
  /** When it was kept, ISO time, and by whom; empty where nobody said. */
  readonly keptAt: string;
  readonly who: string;
  /** When it was taken out, and by whom; null while it stands. */
  readonly out: { readonly at: string; readonly who: string } | null;
}

/** A case that says something of a part: samples are of it, or the part or a fact of it has it as its source. */
export interface CaseOfPart {
  readonly number: string;
  /** Null where the case is not here any more. */
  readonly sheet: SheetId | null;
  readonly title: string;
  /** How many photographs it has that show this slot, or an entry of it. */
  readonly photos: number;
}

/** What keeping came to. */
export interface SamplesKept {
  readonly fresh: number;
  /** Which were kept before and say the same. */
  readonly same: number;
  /** Which no longer are what the case says, or were kept as another part's, and were taken out. */
  readonly out: number;
}
