import { giveBlob } from '../look/giveFile.ts';
import { dayColours } from './dayColours.ts';
import type { Drawing } from './drawing.ts';
import { paintTree } from './paintTree.ts';
import { svgText } from './svgText.ts';

/** Hands the drawing over as a file, in the colours of day; says in a few words what became of it. */
export async function saveTree(drawing: Drawing, as: 'svg' | 'png', title: string): Promise<string> {
  const { palette, faces } = dayColours();
  if (as === 'svg') {
    giveBlob('family-tree.svg', new Blob([svgText(drawing, palette, faces, title)], { type: 'image/svg+xml' }));
    return 'family-tree.svg saved';
  }
  try {
    const { picture, scale } = await paintTree(drawing, palette, faces);
    giveBlob('family-tree.png', picture);
    return scale < 1
      ? `family-tree.png saved at ${Math.round(scale * 100)} % of its size: no picture can be larger. The SVG holds everything.`
      : 'family-tree.png saved';
  } catch (error) {
    return `No PNG was made: ${error instanceof Error ? error.message : String(error)}. The SVG holds everything.`;
  }
}
