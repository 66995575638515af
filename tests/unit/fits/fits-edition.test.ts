import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { type Fact, type FitRule, featuresOf, fitsEdition, judgeRule } from '../../../reasoner/index.ts';
import { choice, count, f, has, measure, unknown } from './helpers.ts';

/** A rule of every kind, and what each of its features may be: in room, at a limit, past it, past telling. */
const lengths: readonly Fact[] = [unknown, measure(10, 0, 0), measure(10, -0.02, 0.02), measure(10.04, -0.01, 0.01), measure(11, 0, 0.03)];
const circles: readonly Fact[] = [unknown, measure(90, -0.1, 0.1), measure(90.2, -0.1, 0.1)];
const holes: readonly Fact[] = [unknown, count(1), count(4), count(4, 5)];
const bolts: readonly Fact[] = [unknown, choice('M8'), choice('M8', 'M10')];
const threads: readonly Fact[] = [
  unknown,
  choice('M8'),
  choice('M8x1.25'),
  choice('M8x1'),
  choice('G1/8'),
  choice('1/4-20 UNC'),
  choice('1/0-20 UNC'),
  choice('round'),
];
const hands: readonly Fact[] = [unknown, choice('right'), choice('left')];
const words: readonly Fact[] = [unknown, choice('a'), choice('b'), choice('a', 'b')];
const there: readonly Fact[] = [unknown, has(true), has(false)];
const limits = { min: 0, max: 0.05 };
const specimens: readonly (readonly [FitRule, Readonly<Record<string, readonly Fact[]>>])[] = [
  [
    { kind: 'pilot', spigot: f('i'), recess: f('o'), ...limits },
    { i: lengths, o: lengths },
  ],
  [
    { kind: 'running clearance', inner: f('i'), outer: f('o'), ...limits },
    { i: lengths, o: lengths },
  ],
  [
    { kind: 'press fit', shaft: f('i'), bore: f('o'), ...limits },
    { i: lengths, o: lengths },
  ],
  [
    {
      kind: 'wheel to contour',
      pairs: [
        { wheel: f('i'), housing: f('o'), way: 'radial', ...limits },
        { wheel: f('wi'), housing: f('wo'), way: 'axial', ...limits },
      ],
    },
    { i: lengths, o: lengths, wi: lengths, wo: lengths },
  ],
  [
    { kind: 'thread', external: { size: f('s'), hand: f('h') }, internal: { size: f('S'), hand: f('H') } },
    { s: threads, h: hands, S: threads, H: hands },
  ],
  [
    {
      kind: 'bolt circle',
      a: { count: f('n'), diameter: f('d'), bolt: f('b') },
      b: { count: f('N'), diameter: f('D'), bolt: f('B') },
      within: 0.3,
    },
    { n: holes, d: circles, b: bolts, N: holes, D: circles, B: bolts },
  ],
  [
    { kind: 'clamp profile', a: f('x'), b: f('y') },
    { x: words, y: words },
  ],
  [
    { kind: 'services', pairs: [{ needs: f('x'), offers: f('y') }] },
    { x: there, y: there },
  ],
  [
    { kind: 'direction of rotation', a: f('x'), b: f('y') },
    { x: words, y: words },
  ],
  [
    { kind: 'same', what: 'entry', a: f('x'), b: f('y') },
    { x: words, y: words },
  ],
];

/** Every way to give each feature one of its facts. */
const everyWay = (of: Readonly<Record<string, readonly Fact[]>>): readonly Readonly<Record<string, Fact>>[] =>
  Object.entries(of).reduce<readonly Readonly<Record<string, Fact>>[]>(
    (ways, [feature, facts]) => ways.flatMap((way) => facts.map((fact) => ({ ...way, [feature]: fact }))),
    [{}],
  );

/** Numbers to a nanometre and a millionth: what the last places are is the machine's. */
const plainly = (_key: string, value: unknown) => (typeof value === 'number' ? Number(value.toFixed(6)) : value);

test('[F2] what the engine says of its specimens belongs to its edition: fits kept by another are judged anew', () => {
  const digest = createHash('sha256');
  const kinds = new Set<string>();
  let judged = 0;
  for (const [rule, of] of specimens) {
    expect(Object.keys(of).sort(), rule.kind).toEqual([...featuresOf(rule)].map(String).sort());
    kinds.add(rule.kind);
    for (const facts of everyWay(of)) {
      digest.update(
        JSON.stringify(
          judgeRule(rule, (feature) => facts[feature]),
          plainly,
        ),
      );
      judged += 1;
    }
  }
  expect(kinds.size, 'a rule of every kind').toBe(10);
  expect(judged).toBeGreaterThan(2500);
  // Other digest: some verdict, number or finding is not what it was. Give `fitsEdition` another value, then write both here.
  expect([fitsEdition, digest.digest('hex').slice(0, 16)]).toEqual(['2026-11-28', '1db5f793f4f850ce']);
});
