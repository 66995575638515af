import type { Status } from '../answer/verdict.ts';
import type { NameId } from '../ids.ts';
import type { Judged } from '../names/demand-table.ts';
import { honestOf, ladderOf } from '../names/ladder.ts';
import type { Unit } from '../unit/unit.ts';
import { bestStatus, claimedNames, claimOf } from '../verdict/claim.ts';

/** The two things a check can change that matter: the honest name, and what becomes of the claim. */
export interface Said {
  readonly honest: readonly { readonly name: NameId; readonly text: string }[];
  /** Null where nothing is claimed. */
  readonly claim: Status | null;
}

/** @param possible the names that are not ruled out, best first */
export const saidOf = (unit: Unit, possible: readonly Judged[] = ladderOf(unit).possible): Said => {
  const claimed = claimedNames(unit.atlas, unit.sheet);
  const statuses = new Map(possible.map(({ rule, status }) => [rule.name.id, status]));
  return {
    honest: honestOf({ possible }).map(({ rule: { name } }) => ({ name: name.id, text: name.text })),
    // A claim the atlas does not list stands or falls with what its words promise.
    claim:
      claimed.length === 0
        ? (claimOf(unit, new Map())?.status ?? null)
        : bestStatus(claimed.flatMap((name) => statuses.get(name) ?? 'ruled out')),
  };
};

export const sameSaid = (a: Said, b: Said): boolean =>
  a.claim === b.claim && a.honest.map(({ name }) => name).join() === b.honest.map(({ name }) => name).join();
