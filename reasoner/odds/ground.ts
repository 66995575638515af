import type { CompiledAtlas } from '../compile/compiled.ts';
import { type Built, builtOf } from './built.ts';
import { type Reach, reachOf } from './reach.ts';
import { type TargetSpace, targetsOf } from './targets.ts';

/** What the odds need of an atlas, made once for each edition. */
export interface OddsGround {
  readonly atlas: CompiledAtlas;
  readonly built: Built;
  readonly targets: TargetSpace;
  readonly reach: Reach;
}

const grounds = new WeakMap<CompiledAtlas, OddsGround>();

export const groundOf = (atlas: CompiledAtlas): OddsGround => {
  const known = grounds.get(atlas);
  if (known) return known;
  const [built, targets] = [builtOf(atlas), targetsOf(atlas)];
  const made = { atlas, built, targets, reach: reachOf(atlas, built, targets) };
  grounds.set(atlas, made);
  return made;
};
