import { describe, expect, test } from 'vitest';
import type { TreeAnswer } from '../../../../db/answers.ts';
import { asId } from '../../../../reasoner/index.ts';
import { axisHeight, everywhere, marginWidth } from '../../../../renderer/tree/drawing.ts';
import { drawTree } from '../../../../renderer/tree/drawTree.ts';
import { footHeight, type PaperPlan, paperPlan, sheetSize } from '../../../../renderer/tree/paperPlan.ts';
import { reachOf } from '../../../../renderer/tree/shapes.ts';
import { tilesOf } from '../../../../renderer/tree/tiles.ts';
import { gutterWidth, type TreeLayout } from '../../../../renderer/tree/treeLayout.ts';
import { levels } from '../../../../renderer/tree/treeNode.ts';
import { demoAtlas } from '../../seed/demo-atlas.ts';
import { crossingsIn, type Grown, grow, laidOut, numbersFrom, treeOfFamilies } from './grown-trees.ts';

/*
 * External checks. That a drawing has no crossing is decided by geometry alone (grown-trees.ts), which knows nothing of how rows were chosen.
 * Trees are planar graphs (M: any text on graphs), and drawn with a row for each node and lines that are upright just before the child begins, every tree whose
 * children begin no earlier than their parents has a drawing without crossings; the tests hold that it is found. K: the trees are made here.
 */
const demoTree: TreeAnswer = {
  makers: demoAtlas.makers,
  families: demoAtlas.families,
  generations: demoAtlas.generations,
  models: demoAtlas.models,
  shared: [],
};

const shapes: readonly { readonly name: string; readonly trees: readonly (readonly Grown[])[] }[] = [
  { name: 'complete binary trees', trees: [3, 7, 15, 31, 63].map((size) => grow(size, size, (i) => (i === 0 ? null : (i - 1) >> 1))) },
  {
    name: 'caterpillars: a spine with a leg at every joint',
    trees: [4, 9, 20, 40].map((size) => grow(size, size + 3, (i) => (i === 0 ? null : i % 2 === 1 ? i - 1 : i - 2))),
  },
  { name: 'chains', trees: [2, 10, 30].map((size) => grow(size, size, (i) => (i === 0 ? null : i - 1))) },
  { name: 'stars', trees: [3, 12, 25].map((size) => grow(size, size, (i) => (i === 0 ? null : 0))) },
  {
    name: 'forests grown by chance',
    trees: Array.from({ length: 40 }, (_, seed) =>
      grow(24, seed, (i, random) => (i === 0 || random() < 0.1 ? null : Math.floor(random() * i))),
    ),
  },
];

describe('[V3] planar trees are drawn without a crossing', () => {
  test.each(shapes)('$name', ({ trees }) => {
    for (const tree of trees)
      for (const width of [4, 11, 40]) expect(crossingsIn(laidOut(treeOfFamilies(tree), 'families', width))).toEqual([]);
  });

  test('the check itself sees a crossing where there is one', () => {
    const layout = laidOut(treeOfFamilies(grow(15, 5, (i) => (i === 0 ? null : (i - 1) >> 1))));
    // The same lines, but the rows of two families changed places under them.
    const [a, b] = [layout.boxes[1], layout.boxes.at(-1)];
    if (a === undefined || b === undefined) throw new Error('a tree of fifteen');
    const swapped = layout.boxes.map((box) => (box === a ? { ...a, y0: b.y0, y1: b.y1 } : box === b ? { ...b, y0: a.y0, y1: a.y1 } : box));
    expect(crossingsIn({ lines: layout.lines, boxes: swapped })).not.toEqual([]);
    const line = (points: [number, number][], parent: string, child: string) =>
      ({ how: 'succeeds', parent, child, points, time: 'in time' }) as const;
    const crossed = [
      line(
        [
          [0, 5],
          [10, 5],
        ],
        'a',
        'b',
      ),
      line(
        [
          [5, 0],
          [5, 10],
        ],
        'c',
        'd',
      ),
    ];
    expect(crossingsIn({ lines: crossed, boxes: [] })).toEqual(['a → b with c → d']);
    const touching = [
      line(
        [
          [0, 5],
          [10, 5],
        ],
        'a',
        'b',
      ),
      line(
        [
          [5, 5],
          [5, 10],
        ],
        'c',
        'd',
      ),
    ];
    expect(crossingsIn({ lines: touching, boxes: [] })).toEqual([]);
  });

  test('the demo atlas: no line of descent or succession crosses another or a family, folded or unfolded to models', () => {
    for (const level of ['families', 'generations', 'models'] as const) {
      const layout = laidOut(demoTree, level);
      const families = layout.boxes.filter(({ node }) => node.kind === 'family');
      const lines = layout.lines.filter(({ how, child }) => how !== 'pattern of' && child.startsWith('family'));
      expect(crossingsIn({ lines, boxes: families }), level).toEqual([]);
    }
  });

  test('a family with two parents, drawn in tree order with crossings, is moved until there are none where that can be had', () => {
    // Two children of one parent, and a grandchild of both: a circle of five, which is planar, but not in tree order.
    const family = (id: string, from: number, to: number, ...parents: string[]): Grown => ({ id, from, to, parents });
    const round = [
      family('a', 1950, 1975),
      family('b', 1960, 1990, 'a'),
      family('c', 1965, 1990, 'a'),
      family('d', 1970, 1999, 'b'),
      family('e', 1980, 2000, 'c', 'd'),
    ];
    const layout = laidOut(treeOfFamilies(round));
    expect(layout.lines).toHaveLength(5);
    expect(crossingsIn(layout)).toEqual([]);
  });
});

describe('[V3] descent agrees with time', () => {
  const runsForward = (layout: TreeLayout) => {
    for (const { points, time, parent, child } of layout.lines) {
      if (time !== 'in time') continue;
      points.forEach(([x], index) => {
        expect(x, `${parent} → ${child}`).toBeGreaterThanOrEqual(points[index - 1]?.[0] ?? Number.NEGATIVE_INFINITY);
      });
      const [a, b] = [layout.byKey.get(parent), layout.byKey.get(child)];
      expect(a?.x0).toBeLessThanOrEqual(b?.x0 ?? Number.NEGATIVE_INFINITY);
    }
  };

  test('no line runs backwards, from the older family to the younger, at any level and scale', () => {
    for (const level of levels) for (const width of [4, 12, 50]) runsForward(laidOut(demoTree, level, width));
    for (const { trees } of shapes) for (const tree of trees) runsForward(laidOut(treeOfFamilies(tree)));
    for (let seed = 0; seed < 20; seed += 1) {
      const tree = grow(20, seed, (i, random) => (i === 0 ? null : Math.floor(random() * i)));
      const random = numbersFrom(seed + 100);
      runsForward(
        laidOut(
          treeOfFamilies(
            tree.map((one, i) => (i < 3 ? one : { ...one, parents: [...one.parents, tree[Math.floor(random() * i)]?.id ?? ''] })),
          ),
        ),
      );
    }
  });

  test('[T1] where the atlas says the younger began first, that is said and no line pretends otherwise', () => {
    const layout = laidOut(
      treeOfFamilies([
        { id: 'late', from: 1990, to: null, parents: [] },
        { id: 'early', from: 1970, to: 1980, parents: ['late'] },
      ]),
    );
    expect(layout.lines.map(({ time }) => time)).toEqual(['years disagree']);
    expect(drawTree(layout, () => '').signs.map(({ text }) => text)).toContain('years disagree: the younger is said to have begun first');
  });

  test('a bar stands over its years and nothing else', () => {
    const layout = laidOut(demoTree, 'models', 10);
    for (const { node, x0, x1, openEnd } of layout.boxes) {
      if (node.from === null) continue;
      expect(x0).toBe(layout.axisFrom + (node.from - layout.years.first) * 10);
      expect(openEnd).toBe(node.to === null);
      expect(x1).toBe(node.to === null ? layout.axisTo : layout.axisFrom + (node.to + 1 - layout.years.first) * 10);
    }
  });
});

describe('[A5] a year that is not known', () => {
  const family = (id: string, from: number | null, to: number | null, ...parents: string[]): Grown => ({ id, from, to, parents });
  const tree = treeOfFamilies([
    family('known', 1960, 1980),
    family('unknown', null, null, 'known'),
    family('ended', null, 1990),
    family('last', 1985, 1999, 'ended'),
  ]);

  test('stands in the gutter beside the axis, at no year', () => {
    const layout = laidOut(tree);
    for (const { node, x1, dated } of layout.boxes) {
      expect(dated).toBe(node.from !== null);
      if (node.from === null) expect(x1).toBeLessThan(gutterWidth);
    }
    expect(layout.axisFrom).toBeGreaterThan(gutterWidth);
    const drawing = drawTree(layout, () => '');
    expect(drawing.axis.shapesIn(everywhere).some((shape) => shape.kind === 'text' && shape.text === 'year not known')).toBe(true);
    expect(layout.lines.map(({ time }) => time)).toEqual(['not dated', 'not dated']);
  });

  test('takes no room where every year is known', () => {
    const layout = laidOut(treeOfFamilies([family('known', 1960, 1980)]));
    expect(layout.axisFrom).toBeLessThan(gutterWidth);
  });

  test('an end that is null is no year either: the bar runs out at the end of the axis, after the newest year known', () => {
    const layout = laidOut(treeOfFamilies([family('a', 1960, null), family('b', 1970, 1999)]));
    expect(layout.byKey.get('family a')).toMatchObject({ openEnd: true, x1: layout.axisTo });
    expect(layout.years.newest).toBe(1999);
    expect(layout.years.last).toBeGreaterThan(1999);
  });
});

describe('[V3] the layout is stable', () => {
  const places = ({ boxes, bands, lines }: TreeLayout) => ({
    boxes: new Map(boxes.map(({ key, x0, x1, y0, y1 }) => [key, [x0, x1, y0, y1]])),
    bands: bands.map(({ key, y0, y1 }) => [key, y0, y1]),
    lines: new Map(lines.map(({ how, parent, child, points }) => [`${how} ${parent} ${child}`, points])),
  });
  const shuffled = <T>(list: readonly T[], seed: number): T[] => {
    const random = numbersFrom(seed);
    return [...list]
      .map((item) => ({ item, at: random() }))
      .sort((a, b) => a.at - b.at)
      .map(({ item }) => item);
  };

  test('the same at every opening, and under families, generations and models in any order', () => {
    for (const level of ['families', 'models'] as const) {
      const first = places(laidOut(demoTree, level));
      expect(places(laidOut(demoTree, level))).toEqual(first);
      for (let seed = 1; seed <= 8; seed += 1) {
        const other = {
          ...demoTree,
          families: shuffled(demoTree.families, seed),
          generations: shuffled(demoTree.generations, seed + 1),
          models: shuffled(demoTree.models, seed + 2),
        };
        expect(places(laidOut(other, level))).toEqual(first);
      }
    }
  });

  /*
   * What holds: in a forest, a new family without children leaves all others in their order and at their years; those below it move down by one row, the others
   * not at all. Where families have several parents the order may change to save crossings; then only this is held: nobody leaves their years or their maker.
   */
  test('a leaf added to a forest moves nobody but one row down', () => {
    for (let seed = 0; seed < 30; seed += 1) {
      const old = grow(20, seed, (i, random) => (i === 0 || random() < 0.1 ? null : Math.floor(random() * i)));
      const random = numbersFrom(seed + 50);
      const parent = old[Math.floor(random() * old.length)];
      if (parent?.from == null) throw new Error('every family grown here has a year');
      const from = parent.from + 1;
      const before = laidOut(treeOfFamilies(old));
      const after = laidOut(treeOfFamilies([...old, { id: 'new', from, to: from + 2, parents: [parent.id] }]));
      const added = after.byKey.get('family new');
      if (added === undefined) throw new Error('the new family is drawn');
      const row = added.y1 - added.y0 + 5;
      for (const box of before.boxes) {
        const now = after.byKey.get(box.key);
        expect([now?.x0, (now?.y0 ?? 0) - box.y0], `seed ${seed}, ${box.key}`).toEqual([box.x0, box.y0 >= added.y0 ? row : 0]);
      }
    }
  });

  test('a leaf added to the demo atlas leaves every maker’s families at their years, and the other makers’ in their order', () => {
    const before = laidOut(demoTree);
    const after = laidOut({
      ...demoTree,
      families: [
        ...demoTree.families,
        {
          id: asId('auk'),
          name: 'Auk',
          maker: asId('merrowby'),
          from: 1999,
          to: 2005,
          descendsFrom: [asId('petrel')],
          succeeds: [],
          patternOf: [],
        },
      ],
    });
    const order = (layout: TreeLayout) => layout.boxes.map(({ key }) => key).filter((key) => key !== 'family auk');
    expect(order(after)).toEqual(order(before));
    for (const { key, x0 } of before.boxes) expect(after.byKey.get(key)?.x0).toBe(x0);
  });

  test('unfolding a family moves what is above it not at all', () => {
    const folded = laidOut(demoTree, 'families');
    const unfolded = laidOut(demoTree, 'models');
    expect(unfolded.bands[0]?.y0).toBe(folded.bands[0]?.y0);
    expect(unfolded.boxes[0]?.y0).toBe(folded.boxes[0]?.y0);
    expect(unfolded.boxes.filter(({ node }) => node.kind === 'family').map(({ key }) => key)).toEqual(folded.boxes.map(({ key }) => key));
  });
});

describe('[V3] what is drawn can be read', () => {
  test('no two rows stand on each other, at any level', () => {
    for (const level of ['families', 'generations', 'models', 'parts'] as const) {
      const heads = laidOut(demoTree, level)
        .boxes.filter(({ node }) => node.kind !== 'part')
        .map(({ head }) => head)
        .sort((a, b) => a - b);
      heads.forEach((head, index) => {
        if (index > 0) expect(head - (heads[index - 1] ?? 0)).toBeGreaterThanOrEqual(14);
      });
    }
  });

  test('every family, generation and model has its name in the drawing, whole, at the level of models', () => {
    const drawing = drawTree(laidOut(demoTree, 'models'), () => '');
    const said = new Set(drawing.body.shapesIn(everywhere).flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])));
    for (const { name } of [...demoTree.families, ...demoTree.generations, ...demoTree.models]) expect(said).toContain(name);
  });

  test('no line runs through a name: what is shared is led past the names that stand beside their bars', () => {
    const [first, last] = [demoTree.models[0], demoTree.models.at(-1)];
    if (first === undefined || last === undefined) throw new Error('the demo world has models');
    const shared = demoTree.models.map((model) => ({
      group: 'core' as const,
      slots: [],
      parts: [],
      families: [...new Set([first.family, model.family, last.family])],
      models: [...new Set([first.id, model.id, last.id])],
    }));
    let [beside, behind] = [0, 0];
    for (const level of ['families', 'generations', 'models'] as const)
      for (const yearWidth of [4, 7, 11]) {
        const drawn = drawTree(laidOut({ ...demoTree, shared }, level, yearWidth), () => 'shared').body.shapesIn(everywhere);
        const names = drawn.flatMap((shape, at) => (shape.kind === 'text' && shape.id.startsWith('name ') ? [{ shape, at }] : []));
        for (const { shape: name, at } of names) {
          beside += name.halo === undefined ? 0 : 1;
          const over = drawn.slice(at + 1).filter((shape) => shape.kind === 'path' && shape.fill === undefined);
          const of = reachOf(name);
          // Upright lines run behind it, over which a ground of its own is laid first.
          const upright = drawn.flatMap((shape, under) => {
            const { x0, x1, y0, y1 } = reachOf(shape);
            const meets = shape.kind === 'path' && shape.fill === undefined && x0 === x1 && x0 > of.x0 && x0 < of.x1;
            return meets && y0 < of.y1 && y1 > of.y0 && under < at ? [{ id: shape.id, x: x0, under }] : [];
          });
          for (const { id, x, under } of upright) {
            const ground = drawn.slice(under + 1, at).find((shape) => {
              const reach = reachOf(shape);
              return (
                shape.kind === 'rect' &&
                shape.fill !== undefined &&
                reach.x0 <= x &&
                reach.x1 >= x &&
                reach.y0 < of.y0 + 5 &&
                reach.y1 > of.y1 - 4
              );
            });
            behind += 1;
            expect(ground, `${id} through ${name.text}, ${level}, ${yearWidth} px a year`).toBeDefined();
          }
          for (const line of over) {
            const { x0, x1, y0, y1 } = reachOf(line);
            expect(
              x1 > of.x0 && x0 < of.x1 && y1 > of.y0 && y0 < of.y1 - 4,
              `${line.id} through ${name.text}, ${level}, ${yearWidth} px a year`,
            ).toBe(false);
          }
        }
      }
    expect(beside).toBeGreaterThan(20);
    expect(behind).toBeGreaterThan(20);
  });

  test('every shape has an id of its own', () => {
    const { body, axis, margin, legend } = drawTree(laidOut(demoTree, 'parts'), () => 'shared');
    for (const field of [body, axis, margin, legend]) {
      const ids = field.shapesIn(everywhere).map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
    }
  });
});

describe('[V3] tiles for paper', () => {
  test('cover the drawing once, without gap, and cut no row in two', () => {
    for (const level of ['families', 'models', 'parts'] as const) {
      const layout = laidOut(demoTree, level, 24);
      const tiles = tilesOf(layout, 900, 640);
      const area = tiles.reduce((sum, { x0, x1, y0, y1 }) => sum + (x1 - x0) * (y1 - y0), 0);
      expect(area).toBeCloseTo(layout.width * layout.height, 3);
      for (const { x0, x1, y0, y1 } of tiles) {
        expect(x1 - x0).toBeLessThanOrEqual(900);
        expect(y1 - y0).toBeLessThanOrEqual(640);
        for (const { head, key } of layout.boxes) {
          if (y1 < layout.height) expect(Math.abs(head - y1), key).toBeGreaterThan(6);
        }
      }
    }
  });
});

describe('[V3] the tree on paper', () => {
  /** Points of 1/72 inch that the smallest letters come out at, on a sheet that its tiles and nothing else decide the scale of. */
  const pointsOf = ({ paper, stand, tiles }: PaperPlan): number => {
    const { mm, px } = sheetSize(paper, stand);
    const one = tiles.length === 1 ? tiles[0] : undefined;
    const width = one === undefined ? px.width : marginWidth + one.x1 - one.x0;
    const height = one === undefined ? px.height : axisHeight + footHeight + one.y1 - one.y0;
    return (11 * Math.min(mm.width / width, mm.height / height) * 72) / 25.4;
  };
  const plan = (paper: 'A4' | 'A3', level: 'makers' | 'families' | 'models') =>
    paperPlan(paper, (across) => laidOut(demoTree, level, { across, scale: 1 }));

  test('no letter is smaller than 7 points, on A4 and on A3, whatever is unfolded', () => {
    for (const paper of ['A4', 'A3'] as const)
      for (const level of ['makers', 'families', 'models'] as const)
        expect(pointsOf(plan(paper, level)), `${level} on ${paper}`).toBeGreaterThanOrEqual(7);
  });

  test('all models take as few sheets as hold them, and one sheet is filled', () => {
    const [a4, a3] = [plan('A4', 'models'), plan('A3', 'models')];
    expect([a4.stand, a4.tiles.length, a3.stand, a3.tiles.length]).toEqual(['standing', 3, 'standing', 2]);
    expect(plan('A4', 'families').tiles).toHaveLength(1);
    expect(pointsOf(plan('A3', 'families'))).toBeGreaterThan(1.4 * pointsOf(a3));
  });

  test('a drawing as wide as three sheets is laid on three, side by side', () => {
    const wide = paperPlan('A4', () => laidOut(demoTree, 'makers', 40));
    expect(wide.tiles.length).toBeGreaterThan(1);
    expect(new Set(wide.tiles.map(({ row }) => row)).size).toBe(1);
    expect(pointsOf(wide)).toBeGreaterThanOrEqual(7);
  });
});
