import type { TreeAnswer } from '../../db/answers.ts';
import type { PlacedRows } from './placeRows.ts';
import type { Overlays, SharedColumn } from './treeLayout.ts';
import { keyOf, type TreeKey, type TreeNodes } from './treeNode.ts';

const wordsHeight = 13;
const trackWidth = 14;

interface Ranked {
  readonly at: readonly (SharedColumn & { readonly track: number })[];
  readonly tracks: number;
  readonly trackWidth: number;
}

/**
 * The columns that are switched on, each in the first track where it meets no other. A dot stands in the row that can be seen:
 * of the model, of its folded generation or family, or of its folded maker.
 */
export function rankColumns(tree: TreeAnswer, nodes: TreeNodes, { rows, bands }: PlacedRows, overlays: Overlays): Ranked {
  if (!overlays.cores && !overlays.housings) return { at: [], tracks: 0, trackWidth };
  const heads = new Map([...bands, ...rows].map(({ node, head }) => [node.key, head]));
  const rowOf = (key: TreeKey): { readonly key: TreeKey; readonly y: number } | null => {
    for (let at: TreeKey | null = key; at !== null; at = nodes.of.get(at)?.parent ?? null) {
      const y = heads.get(at);
      if (y !== undefined) return { key: at, y };
    }
    return null;
  };
  const said: number[] = [];
  const tracks: { y0: number; y1: number }[][] = [];
  const at = tree.shared
    .filter(({ group }) => (group === 'core' ? overlays.cores : overlays.housings))
    .flatMap((shared) => {
      const dots = new Map<TreeKey, number>();
      for (const model of shared.models) {
        const row = rowOf(keyOf('model', model));
        if (row !== null) dots.set(row.key, row.y);
      }
      const sorted = [...dots].map(([key, y]) => ({ key, y })).sort((a, b) => a.y - b.y);
      const [first, last] = [sorted[0]?.y ?? 0, sorted.at(-1)?.y ?? 0];
      // Families of one folded maker share one row there; a line from a row to itself says nothing.
      if (sorted.length < 2) return [];
      const free = tracks.findIndex((track) => track.every(({ y0, y1 }) => last + 12 < y0 || y1 + 12 < first));
      const track = free < 0 ? tracks.length : free;
      tracks[track] = [...(tracks[track] ?? []), { y0: first, y1: last }];
      const saysAt = rowForWords(sorted, said);
      said.push(saysAt);
      return [{ shared, x: 0, dots: sorted, saysAt, track }];
    });
  return { at, tracks: tracks.length, trackWidth };
}

/** The first of its own rows that has room for its words, or the first below them. */
function rowForWords(dots: SharedColumn['dots'], said: readonly number[]): number {
  const isFree = (y: number) => said.every((other) => Math.abs(other - y) >= wordsHeight);
  let y = dots.find((dot) => isFree(dot.y))?.y ?? dots.at(-1)?.y ?? 0;
  while (!isFree(y)) y += wordsHeight;
  return y;
}
