import type { CheckPlan, PlanCheck, PlanEnd } from '../../reasoner/index.ts';

/** One line of the plan drawn as a tree: a reading and what follows it. The first line has no reading before it. */
export interface PlanLine {
  /** Place in the tree: `0`, `0.1`, `0.1.0`; the same for as long as the plan is. */
  readonly id: string;
  readonly reading: { readonly text: string; readonly chance: number } | null;
  readonly then: PlanCheck | PlanEnd;
  readonly lines: readonly PlanLine[];
}

export const planTree = (plan: CheckPlan): PlanLine => lineOf(plan, null, '0');

const lineOf = (then: CheckPlan, reading: PlanLine['reading'], id: string): PlanLine => ({
  id,
  reading,
  then,
  lines:
    then.kind === 'end' ? [] : then.branches.map(({ text, chance, after }, number) => lineOf(after, { text, chance }, `${id}.${number}`)),
});

/** The lines in the order they are read, those folded away left out. */
export const unfolded = (line: PlanLine, folded: ReadonlySet<string>): readonly PlanLine[] => [
  line,
  ...(folded.has(line.id) ? [] : line.lines.flatMap((each) => unfolded(each, folded))),
];

export const parentOf = (id: string): string | null => (id.includes('.') ? id.slice(0, id.lastIndexOf('.')) : null);

/** Checks on the longest way through. */
export const depthOf = (line: PlanLine): number => (line.then.kind === 'end' ? 0 : 1 + Math.max(0, ...line.lines.map(depthOf)));
