import { renderToStaticMarkup } from 'react-dom/server';
import { SceneView } from '../../../renderer/drawings/SceneView.tsx';
import type { Scene } from '../../../renderer/drawings/scene.ts';

/** An element of the picture as the window gets it: tag and attributes, read back from the markup. */
export interface Element {
  readonly tag: string;
  readonly look: string;
  readonly feature: string | undefined;
  readonly number: (name: string) => number;
  readonly text: (name: string) => string;
}

/** The shapes of a scene's SVG. Nothing of the scene is used but its markup. */
export const elementsOf = (scene: Scene): readonly Element[] =>
  [...renderToStaticMarkup(SceneView({ scene })).matchAll(/<(line|circle|path)\b([^>]*)>/g)].map(([, tag = '', attributes = '']) => {
    const read = new Map([...attributes.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [name, value]));
    const text = (name: string) => {
      const value = read.get(name);
      if (value === undefined) throw new Error(`<${tag}> has no ${name}`);
      return value;
    };
    return {
      tag,
      look: (read.get('class') ?? '').replace(/^is-/, ''),
      feature: read.get('data-feature'),
      number: (name) => Number(text(name)),
      text,
    };
  });

/** The first and last point of a path. */
export const endsOf = (path: Element): readonly [readonly [number, number], readonly [number, number]] => {
  const numbers =
    path
      .text('d')
      .match(/-?\d+(\.\d+)?(e-?\d+)?/g)
      ?.map(Number) ?? [];
  const at = (i: number): [number, number] => [numbers.at(i) ?? Number.NaN, numbers.at(i + 1 === 0 ? numbers.length : i + 1) ?? Number.NaN];
  return [at(0), [numbers.at(-2) ?? Number.NaN, numbers.at(-1) ?? Number.NaN]];
};

export const lengthOf = (line: Element): number => Math.hypot(line.number('x2') - line.number('x1'), line.number('y2') - line.number('y1'));
