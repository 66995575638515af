import type { SlotChange } from '../cases/case-changes.ts';
import { judgeCase } from '../cases/judge-case.ts';
import {
  type Retelling,
  type RetoldProgress,
  type RetoldWeight,
  retold,
  retoldWeights,
  type SavedCase,
  savedLastFirst,
  type Told,
  toldOf,
} from '../cases/retold.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** A case and the sheet of its last entry. */
export interface CaseToJudge extends SavedCase {
  readonly saved: Sheet;
}

/** What becomes of a case by a change of the atlas (H3): what it is told as the atlas is, and would be told after the change. */
export type CaseWould = SavedCase &
  (
    | {
        readonly how: 'told otherwise';
        readonly is: Told;
        readonly would: Told;
        /** Never empty. */
        readonly differs: readonly Retelling[];
        readonly weight: RetoldWeight;
        /** Where other parts would remain; by name, those that would no longer be possible, and those that would be. */
        readonly slots: readonly Pick<SlotChange, 'slot' | 'name' | 'gone' | 'come'>[];
      }
    /** The sheet names what the atlas would not have any more. `faults`: what. */
    | { readonly how: 'judged no more'; readonly is: Told; readonly faults: readonly string[] }
    /** The sheet names what the atlas does not have as it is, and would have. */
    | { readonly how: 'judged again'; readonly would: Told; readonly faults: readonly string[] }
  );

export interface CasesWould {
  /** Worst first, then the case saved last; then those that would be judged no more, then those that would be judged again. Cases that stay the same are not listed. */
  readonly cases: readonly CaseWould[];
  /** Told the same by both. */
  readonly same: number;
  /** Judged by neither: what their sheets name, the atlas has neither now nor then. */
  readonly neither: number;
  readonly judged: number;
  readonly of: number;
  /** False where it was stopped before all were judged. */
  readonly complete: boolean;
}

/** A sheet held against an atlas: as that atlas reads it, or what it does not know of it. */
export type HoldSheet = (atlas: CompiledAtlas, sheet: Sheet) => { readonly sheet: Sheet } | { readonly faults: readonly string[] };

/** Judges cases by the atlas as it is and as it would be, a case at a time. Yields after each; answered with true it stops there. */
export function* casesWould(
  before: CompiledAtlas,
  after: CompiledAtlas,
  cases: readonly CaseToJudge[],
  hold: HoldSheet,
): Generator<RetoldProgress, CasesWould, boolean | undefined> {
  const found: CaseWould[] = [];
  let [judged, same, neither, stopped] = [0, 0, 0, false];
  for (const { saved, ...one } of cases) {
    if (stopped) break;
    const [now, then] = [hold(before, saved), hold(after, saved)];
    if ('sheet' in now && 'sheet' in then) {
      const told = retold(after, { sheet: then.sheet, verdict: judgeCase(before, now.sheet) });
      if (told === null) same += 1;
      else {
        const { was: is, is: would, differs, weight } = told;
        const slots = told.slots.map(({ slot, name, gone, come }) => ({ slot, name, gone, come }));
        found.push({ ...one, how: 'told otherwise', is, would, differs, weight, slots });
      }
    } else if ('sheet' in now) {
      const faults = 'faults' in then ? then.faults : [];
      found.push({ ...one, how: 'judged no more', is: toldOf(judgeCase(before, now.sheet)), faults });
    } else if ('sheet' in then)
      found.push({ ...one, how: 'judged again', would: toldOf(judgeCase(after, then.sheet)), faults: now.faults });
    else neither += 1;
    judged += 1;
    stopped = (yield { judged, of: cases.length }) === true;
  }
  return { cases: found.sort(worstFirst), same, neither, judged, of: cases.length, complete: judged === cases.length };
}

const placeOf = (one: CaseWould): number =>
  one.how === 'told otherwise' ? retoldWeights.indexOf(one.weight) : retoldWeights.length + (one.how === 'judged no more' ? 0 : 1);

const worstFirst = (a: CaseWould, b: CaseWould): number => placeOf(a) - placeOf(b) || savedLastFirst(a, b);
