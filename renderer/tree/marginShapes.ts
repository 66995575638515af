import { marginWidth } from './drawing.ts';
import { type Shape, shortened, widthOf } from './shapes.ts';
import type { Band } from './treeLayout.ts';

/** A maker beside its rows. */
export function marginShapes(band: Band): Shape[] {
  const families = band.node.children.length;
  const lines = inLines(band.node.name, marginWidth - 18, 15, 600);
  return [
    ...lines.map(
      (text, index): Shape => ({
        id: `margin ${band.key} ${index}`,
        kind: 'text',
        x: 12,
        y: band.head + 5 + index * 16,
        text,
        size: 15,
        weight: 600,
        fill: 'ink',
        face: 'title',
        node: band.key,
      }),
    ),
    {
      id: `families ${band.key}`,
      kind: 'text',
      x: 12,
      y: band.head + 4 + lines.length * 16,
      text: families === 1 ? '1 family' : `${families} families`,
      size: 11.5,
      weight: 400,
      fill: 'ink-soft',
    },
  ];
}

/** A name in two lines at most, between words. */
function inLines(text: string, width: number, size: number, weight: number): readonly string[] {
  if (widthOf(text, size, weight) <= width) return [text];
  const words = text.split(' ');
  let count = words.length - 1;
  while (count > 1 && widthOf(words.slice(0, count).join(' '), size, weight) > width) count -= 1;
  const [first, second] = [words.slice(0, Math.max(1, count)).join(' '), words.slice(Math.max(1, count)).join(' ')];
  return second === ''
    ? [shortened(first, width, size, weight)]
    : [shortened(first, width, size, weight), shortened(second, width, size, weight)];
}
