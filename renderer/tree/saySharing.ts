import type { TreeAnswer } from '../../db/answers.ts';
import type { Words } from '../bridge/words.ts';
import type { Overlays } from './treeLayout.ts';
import type { TreeNode } from './treeNode.ts';

/** With whom a family shares parts, in words, as far as the overlays are on: `shares bearing housing and shaft with Dunlin, Tern`. */
export function saySharing(tree: TreeAnswer, overlays: Overlays, { ref }: TreeNode, words: Words): string {
  if (ref?.kind !== 'family') return '';
  return tree.shared
    .filter(({ group, families }) => (group === 'core' ? overlays.cores : overlays.housings) && families.includes(ref.id))
    .map(({ slots, families }) => {
      const others = families.filter((id) => id !== ref.id).map((id) => words.familyName(id));
      return `shares ${slots.map((slot) => words.slotName(slot)).join(' and ')} with ${others.join(', ')}`;
    })
    .join('; ');
}
