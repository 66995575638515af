import type { Family, Generation } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FamilyId, GenerationId } from '../ids.ts';

/** A family or a generation as a place in a line of descent. */
export type LineNode = { readonly kind: 'family'; readonly of: Family } | { readonly kind: 'generation'; readonly of: Generation };

/** One step of a line: what came of what, and how. */
export interface LineStep {
  readonly from: LineNode;
  readonly to: LineNode;
  readonly how: 'succeeds' | 'descends from' | 'is a pattern of';
}

export const nodeKey = ({ kind, of }: LineNode): string => `${kind}:${of.id}`;

/** What a node directly came of. The first generation of a family came of what its family came of. */
export const stepsBack = (atlas: CompiledAtlas, node: LineNode): LineStep[] => {
  switch (node.kind) {
    case 'family':
      return ofFamily(atlas, node, node.of);
    case 'generation': {
      const before = node.of.succeeds === null ? undefined : generationOf(atlas, node.of.succeeds);
      if (before !== undefined) return [{ from: { kind: 'generation', of: before }, to: node, how: 'succeeds' }];
      const family = atlas.families.get(node.of.family);
      return family === undefined ? [] : ofFamily(atlas, node, family);
    }
  }
};

const generationOf = (atlas: CompiledAtlas, id: GenerationId): Generation | undefined =>
  atlas.data.generations.find((each) => each.id === id);

const ofFamily = (atlas: CompiledAtlas, to: LineNode, family: Family): LineStep[] => {
  const of = (ids: readonly FamilyId[], how: LineStep['how']): LineStep[] =>
    ids.flatMap((id) => {
      const before = atlas.families.get(id);
      return before === undefined ? [] : [{ from: { kind: 'family', of: before } as const, to, how }];
    });
  return [...of(family.succeeds, 'succeeds'), ...of(family.descendsFrom, 'descends from'), ...of(family.patternOf, 'is a pattern of')];
};

/** The shortest line from a node back to an earlier one, latest step first; null where there is none. */
export const lineBack = (atlas: CompiledAtlas, late: LineNode, early: LineNode): readonly LineStep[] | null => {
  const wanted = nodeKey(early);
  const seen = new Set([nodeKey(late)]);
  let edge: { readonly node: LineNode; readonly steps: readonly LineStep[] }[] = [{ node: late, steps: [] }];
  while (edge.length > 0) {
    const next: typeof edge = [];
    for (const { node, steps } of edge) {
      for (const step of stepsBack(atlas, node)) {
        const key = nodeKey(step.from);
        if (key === wanted) return [...steps, step];
        if (seen.has(key)) continue;
        seen.add(key);
        next.push({ node: step.from, steps: [...steps, step] });
      }
    }
    edge = next;
  }
  return null;
};

/** What may be put in order about one family: everything it came of, and the family itself, as its generations where it has them. */
export const descentGround = (atlas: CompiledAtlas, family: FamilyId): LineNode[] => {
  const last = atlas.families.get(family);
  if (last === undefined) return [];
  const found = new Map<string, LineNode>();
  const open: LineNode[] = [{ kind: 'family', of: last }];
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    for (const { from } of stepsBack(atlas, node)) {
      if (found.has(nodeKey(from))) continue;
      found.set(nodeKey(from), from);
      open.push(from);
    }
  }
  const generations = atlas.data.generations.filter((each) => each.family === family);
  const own: LineNode[] =
    generations.length > 0 ? generations.map((of) => ({ kind: 'generation', of }) as const) : [{ kind: 'family', of: last }];
  return [...found.values(), ...own];
};
