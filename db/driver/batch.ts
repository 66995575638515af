import type { Batch, Guard, Statement } from './driver.ts';

/** A statement of a batch as it is sent, with the guard it asks for where it is one. */
export interface Step extends Statement {
  readonly guard: Guard | null;
}

/** A batch as the list of statements that is run as one transaction. A statement that asks for a guard fails where the guard does not hold. */
export function* stepsOf({ guards = [], statements, afterwards = [] }: Batch): Generator<Step> {
  // Holds for the transaction it is said in.
  yield { sql: 'pragma defer_foreign_keys = on', params: [], guard: null };
  for (const guard of guards) yield asked(guard);
  for (const { sql, params } of statements) yield { sql, params, guard: null };
  for (const guard of afterwards) yield asked(guard);
}

/** `guards` is a view of nothing; what refuses is its trigger (migration 8). */
const asked = (guard: Guard): Step => ({ sql: `insert into guards (holds) values ((${guard.sql}))`, params: guard.params, guard });

/** Whether a step failed because its guard does not hold, by the message of its failure; a guard may also fail for being no SQL. */
export const isRefusal = (step: Step, message: string): boolean => step.guard !== null && message.includes('a guard does not hold');

/** Of the rows each step changed, those of the batch's own statements. */
export const changedBy = (steps: readonly Pick<Step, 'guard'>[], changed: readonly number[]): number[] =>
  changed.filter((_, i) => i > 0 && steps[i]?.guard === null);
