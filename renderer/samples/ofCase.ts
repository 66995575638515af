import type { Version } from '../../db/answers.ts';
import type { Sheet, SlotId } from '../../reasoner/index.ts';

/** What a box is about that takes something of a case into the atlas: a slot of it, as it was read. */
export interface OfCase {
  readonly sheet: Sheet;
  readonly version: Version;
  readonly slot: SlotId;
  onLeave(): void;
}
