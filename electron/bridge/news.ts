import type { Progress } from '../../reasoner/index.ts';

/** What a window is told without having asked just then, over either transport. */
export type News =
  /** How far one of its own questions has come, by the number the window gave it. */
  | { readonly kind: 'progress'; readonly ask: number; readonly progress: Progress }
  /** Another atlas is reasoned over than before: a pack was loaded or taken out, here or elsewhere. */
  | { readonly kind: 'atlas changed' };
