import type { ReplacementFit } from '../answer/verdict.ts';
import type { CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import type { PairFit } from '../fits/work/pair-fit.ts';

/** How a replacement goes on at one joint, whichever of its possible neighbours it meets. */
export interface JointNeed {
  readonly joint: CompiledJoint;
  /** Where the replacement goes, and what it meets there. */
  readonly slot: CompiledSlot;
  readonly other: CompiledSlot;
  /** The neighbour is replaced too, so that one can be chosen that goes best. */
  readonly otherIsNew: boolean;
  readonly fit: 'drops in' | ReplacementFit;
  /** Of each kind it comes to with some neighbour, the one of least work; the best kind first. */
  readonly found: readonly PairFit[];
  /** The neighbour may be a part that is not listed, or none that is listed is left. */
  readonly inDoubt: boolean;
  /** Which work it is depends on the neighbour. */
  readonly worksDiffer: boolean;
  /** Minutes of work that have to be done whatever the neighbour is. */
  readonly minutes: number;
}
