import type { NodeRef } from '../../db/answers.ts';

/** A node as an address names it. */
export type Pick = PickOf<NodeRef>;
type PickOf<T> = T extends NodeRef ? { readonly kind: T['kind']; readonly id: T['id'] } : never;

/** None, one, or two nodes held against each other. */
export type Picks = readonly [] | readonly [Pick] | readonly [Pick, Pick];

export const samePick = (a: Pick, b: Pick): boolean => a.kind === b.kind && a.id === b.id;

/** Picking a node again lets it go; a third takes the place of the second. */
export function withPick(picks: Picks, pick: Pick): Picks {
  const rest = picks.filter((one) => !samePick(one, pick));
  const [first] = rest;
  if (rest.length < picks.length) return first === undefined ? [] : [first];
  return first === undefined ? [pick] : [first, pick];
}
