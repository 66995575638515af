import type { NodeRef } from '../../db/answers.ts';
import type { Role } from '../../reasoner/index.ts';

/** What a line of the tree is; a slot stands between a model and its parts. */
export type TreeKind = NodeRef['kind'] | 'slot';

/** `family petrel`; a slot or part within its model: `part petrel-13 petrel-wheel`, for one part may sit in many. */
export type TreeKey = string;

/** One node of the tree, drawn or in the outline. Years are null where they are not known; an end of null is "today or not known". */
export interface TreeNode {
  readonly key: TreeKey;
  readonly kind: TreeKind;
  readonly name: string;
  /** What the atlas calls it; null for the group of families without a maker's name, and for a slot. */
  readonly ref: NodeRef | null;
  readonly parent: TreeKey | null;
  readonly children: readonly TreeKey[];
  readonly from: number | null;
  readonly to: number | null;
  /** A part's role in its model. */
  readonly role?: Role;
  /** Its lines in words: `descends from Tern, succeeds Fulmar`. Empty where there are none. */
  readonly lines: string;
}

/** Every node by its key, makers first; `roots` in the order they are shown; in `rows` what stands under a node in the drawing, from top to bottom. */
export interface TreeNodes {
  readonly roots: readonly TreeKey[];
  readonly of: ReadonlyMap<TreeKey, TreeNode>;
  readonly rows: ReadonlyMap<TreeKey, readonly TreeKey[]>;
}

export const nobody: TreeKey = 'maker';

export const keyOf = (kind: NodeRef['kind'], id: string): TreeKey => `${kind} ${id}`;

export const levels = ['makers', 'families', 'generations', 'models', 'parts'] as const;
export type Level = (typeof levels)[number];

/** What is unfolded: everything down to a level, but for the nodes someone has folded or unfolded by hand. */
export interface Unfolded {
  readonly level: Level;
  readonly byHand: ReadonlyMap<TreeKey, boolean>;
}

export function isOpen(nodes: TreeNodes, { level, byHand }: Unfolded, node: TreeNode): boolean {
  const chosen = byHand.get(node.key);
  if (chosen !== undefined) return chosen;
  const depth = levels.indexOf(level);
  switch (node.kind) {
    case 'maker':
      return depth >= 1;
    case 'family':
      return depth >= 3 || (depth >= 2 && node.children.some((key) => nodes.of.get(key)?.kind === 'generation'));
    case 'generation':
      return depth >= 3;
    case 'model':
    case 'slot':
      return depth >= 4;
    case 'part':
      return false;
  }
}
