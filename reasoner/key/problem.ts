import type { Look } from '../apart/look.ts';
import type { Pulse } from '../plain/pulse.ts';

/**
 * What a key is made for, without names: subjects that hold one part in every slot, checks that are made on one slot, and labels to be found.
 * Parts of a slot that look alike to every check are one *kind*. Each subject holds any of its kinds of a slot with the odds given, slots independent of each other.
 */
export interface KeyProblem {
  /** How many different answers the key has: models, or families. */
  readonly labels: number;
  readonly subjects: readonly KeySubject[];
  /** By slot, how many kinds of part there are. */
  readonly kinds: readonly number[];
  readonly checks: readonly KeyCheck[];
  readonly stages: readonly KeyStage[];
  /** Called as places are weighed. */
  readonly pulse?: Pulse;
}

export interface KeySubject {
  readonly label: number;
  /** Odds that a unit is this; all together 1. */
  readonly odds: number;
  /** By slot: the kinds it may hold and their odds, together 1 in each slot. */
  readonly holds: readonly (readonly { readonly kind: number; readonly odds: number }[])[];
}

export interface KeyCheck {
  readonly slot: number;
  /** Of the look itself. */
  readonly minutes: number;
  /** Number of the stage it is made at. */
  readonly stage: number;
  /** By kind of its slot; null where the look is not known. */
  readonly looks: readonly (Look | null)[];
  /** Smallest step of a measure, to cut between sizes at figures that can be read; 0 for none. */
  readonly step: number;
}

export interface KeyStage {
  readonly minutes: number;
  /** Numbers of all stages that must be reached with it, itself included. At most 30 stages. */
  readonly needs: readonly number[];
}

/** Stages reached after going on to one, as bits, and the minutes that takes. */
export const goOn = (problem: KeyProblem, reached: number, stage: number): { readonly reached: number; readonly minutes: number } => {
  let [bits, minutes] = [reached, 0];
  for (const need of problem.stages[stage]?.needs ?? []) {
    if (bits & (1 << need)) continue;
    bits |= 1 << need;
    minutes += problem.stages[need]?.minutes ?? 0;
  }
  return { reached: bits, minutes };
};
