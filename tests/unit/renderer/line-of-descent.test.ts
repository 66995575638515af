import { describe, expect, test } from 'vitest';
import type { TreeAnswer } from '../../../db/answers.ts';
import { drillOf, judgeDrill, topicsOf } from '../../../reasoner/index.ts';
import { askedKeys, layoutOfLine, sayLine } from '../../../renderer/drills/lineOfDescent.ts';
import { everywhere } from '../../../renderer/tree/drawing.ts';
import { drawTree } from '../../../renderer/tree/drawTree.ts';
import { demo, demoAtlas } from '../seed/demo-atlas.ts';

const tree: TreeAnswer = { ...demoAtlas, shared: [] };

/** Every drill of descent of some seeds, answered as it is shown, with the line its explanation draws. */
const explained = topicsOf(demo)
  .filter(({ kind }) => kind === 'descent')
  .flatMap((topic) => [1, 2, 3, 4].flatMap((seed) => drillOf(demo, topic, seed) ?? []))
  .map((drill) => {
    const { line = [] } = judgeDrill(
      demo,
      drill,
      drill.choices.map(({ id }) => id),
    );
    return { drill, line, layout: layoutOfLine(tree, line, 420) };
  });

describe('the line of descent in an explanation', () => {
  test('[V3] everything that was asked is drawn and stands out, and nothing off the line is', () => {
    expect(explained.length).toBeGreaterThan(30);
    for (const { drill, line, layout } of explained) {
      const asked = drill.choices.map(({ id }) => id.replace(':', ' '));
      expect([...askedKeys(line)].sort()).toEqual([...asked].sort());
      for (const key of asked) expect(layout.byKey.has(key), `${drill.topic} ${drill.seed}: ${key}`).toBe(true);
      const families = new Set(line.map(({ family }) => family));
      expect(layout.boxes.filter(({ node }) => node.kind === 'family')).toHaveLength(families.size);
      for (const { name } of drill.choices.map(({ text }) => ({ name: text }))) expect(sayLine(layout)).toContain(name);
    }
  });

  test('[V3] every bar stands at its years, inside its maker’s band, and no line runs back in time', () => {
    for (const { layout } of explained) {
      expect(layout.width).toBeLessThanOrEqual(421);
      for (const { node, x0, y0, y1, dated } of layout.boxes) {
        if (dated && node.from !== null) expect(x0).toBeCloseTo(layout.axisFrom + (node.from - layout.years.first) * layout.yearWidth, 6);
        expect(layout.bands.some((band) => band.y0 <= y0 && y1 <= band.y1)).toBe(true);
      }
      for (const { parent, child, time } of layout.lines) {
        const [from, to] = [layout.byKey.get(parent)?.node.from, layout.byKey.get(child)?.node.from];
        if (time === 'in time') expect(from as number).toBeLessThanOrEqual(to as number);
      }
    }
  });

  test('[V3] a line that judges two the wrong way round is in the drawing, step by step', () => {
    let steps = 0;
    for (const { drill, line, layout } of explained) {
      const { sentences } = judgeDrill(
        demo,
        drill,
        [
          ...(judgeDrill(
            demo,
            drill,
            drill.choices.map(({ id }) => id),
          ).accepted[0] ?? []),
        ].reverse(),
      );
      const drawn = new Set(layout.lines.map(({ parent, child }) => `${child} < ${parent}`));
      const named = new Map(line.map(({ kind, id }) => [`${kind} ${id}`, id]));
      for (const family of demoAtlas.families)
        for (const parent of [...family.succeeds, ...family.descendsFrom, ...family.patternOf]) {
          if (!named.has(`family ${family.id}`) || !named.has(`family ${parent}`)) continue;
          expect(drawn.has(`family ${family.id} < family ${parent}`)).toBe(true);
          steps += 1;
        }
      expect(sentences.length).toBeGreaterThan(1);
      expect(drawTree(layout, () => '').body.shapesIn(everywhere).length).toBeGreaterThan(layout.boxes.length);
    }
    expect(steps).toBeGreaterThan(50);
  });
});
