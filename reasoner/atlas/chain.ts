import type { FeatureId, Id, SourceId } from '../ids.ts';

export type ChainId = Id<'chain'>;

/**
 * A stack of lengths over any number of parts (F1, axial chain): from the turbine wheel's back to the compressor nut, say. What is left over
 * is a float or a nut's engagement, and must lie in [min, max] mm.
 */
export interface Chain {
  readonly id: ChainId;
  readonly name: string;
  readonly leaves: 'float' | 'nut engagement' | 'gap';
  /** Lengths and how often each enters: 1 adds, −1 takes away, ½ for a length given as a diameter. */
  readonly links: readonly { readonly feature: FeatureId; readonly times: number }[];
  readonly min: number;
  readonly max: number;
  readonly source: SourceId;
}
