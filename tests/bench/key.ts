import {
  type BuiltKey,
  buildKey,
  compileAtlas,
  type KeyAsked,
  type KeyProblem,
  keyOf,
  problemOf,
  stepsAt,
  usualEffort,
} from '../../reasoner/index.ts';
import { after, labelsOf, type State, startOf } from '../../reasoner/key/state.ts';
import { asRatio, inWords, slopeOf, table, timed } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';
import { largerAtlas } from './larger-atlas.ts';

/** Subjects held against checks, summed over the places weighed, before the plain search is given up: so many times what ours may spend on a whole key. */
const patience = 10 * usualEffort.whole;

/** The wall key: beside a greedy one and a plain search over all trees, and as the atlas grows. */
export const wallKeys = async ({ atlas }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const compiled = compileAtlas(atlas);
  const families = atlas.families.map(({ id }) => id);
  const stages = atlas.stages.map(({ id }) => id);
  const asked: readonly { readonly name: string; readonly asked: KeyAsked }[] = [
    {
      name: 'two families, as received, without letters',
      asked: { level: 'models', families: families.slice(0, 2), scope: { plate: false, letters: false, stages: stages.slice(0, 1) } },
    },
    { name: 'models of two families', asked: { level: 'models', families: families.slice(0, 2), scope: {} } },
    { name: 'four families', asked: { level: 'families', families: families.slice(0, 4), scope: {} } },
    { name: 'all families', asked: { level: 'families', scope: {} } },
    { name: 'all models', asked: { level: 'models', scope: {} } },
  ];
  const rows: string[][] = [];
  for (const one of asked) {
    const { problem } = problemOf(compiled, one.asked);
    const ours = buildKey(problem);
    const own = await timed(3, () => buildKey(problem));
    const greedy = await timed(3, () => greedyKey(problem));
    const minutes = greedyKey(problem);
    const plain = await plainly(problem, ours);
    rows.push([
      one.name,
      String(problem.labels),
      inWords(own.median),
      `${ours.expected.toFixed(2)} min${ours.optimal ? ', least' : ''}`,
      asRatio(greedy.median / own.median),
      `${(minutes / ours.expected).toFixed(3)}×`,
      plain === null ? 'gave up' : inWords(plain),
      plain === null ? '' : asRatio(plain / own.median),
    ]);
  }
  console.log(
    '\nA key on the demo atlas. Greedy: at each place the check of most bits a minute. Plain: every tree, nothing remembered or bounded; it finds the same minutes.\n',
  );
  console.log(
    table(['key to', 'answers', 'ours', 'expected', 'greedy / ours, time', 'greedy / ours, minutes', 'plain search', 'plain / ours'], rows),
  );
  const medians: number[] = [];
  for (const times of scales) {
    const larger = compileAtlas(largerAtlas(atlas, times));
    medians.push((await timed(1, () => keyOf(larger, { level: 'families', scope: {} }))).median);
  }
  const list = scales.map((times, i) => `${times}× ${inWords(medians[i] as number)}`).join(', ');
  const power = scales.length > 1 ? `; to the power ${slopeOf(scales, medians).toFixed(2)} of its size` : '';
  console.log(`\nThe key to all families as the atlas grows: ${list}${power}.`);
};

/** Expected minutes of the key that at each place makes the check of most bits of the label a minute; strip-down is charged where it is done. */
const greedyKey = (problem: KeyProblem): number => {
  const known = new Map<string, number>();
  const from = (state: State): number => {
    const before = known.get(state.key) ?? expectedFrom(state);
    known.set(state.key, before);
    return before;
  };
  const expectedFrom = (state: State): number => {
    const best = stepsAt(problem, state)
      .map((step) => ({ step, worth: bitsTold(problem, state, step) / Math.max(0.1, step.minutes) }))
      .reduce<{ step: ReturnType<typeof stepsAt>[number]; worth: number } | null>(
        (a, b) => (a === null || b.worth > a.worth ? b : a),
        null,
      );
    return best === null
      ? 0
      : best.step.minutes + best.step.ways.reduce((sum, way) => sum + way.share * from(after(problem, state, best.step, way)), 0);
  };
  return from(startOf(problem));
};

const bitsTold = (problem: KeyProblem, state: State, step: ReturnType<typeof stepsAt>[number]): number => {
  const bits = (odds: ArrayLike<number>): number => {
    const labels = new Map<number, number>();
    let all = 0;
    state.subjects.forEach(({ number }, i) => {
      const label = problem.subjects[number]?.label ?? -1;
      labels.set(label, (labels.get(label) ?? 0) + (odds[i] ?? 0));
      all += odds[i] ?? 0;
    });
    return [...labels.values()].reduce((sum, one) => (one > 0 ? sum - (one / all) * Math.log2(one / all) : sum), 0);
  };
  return bits(state.subjects.map(({ odds }) => odds)) - step.ways.reduce((sum, { share, odds }) => sum + share * bits(odds), 0);
};

/** Milliseconds of the plain search, null where it gave up; it must find what we find. */
const plainly = async (problem: KeyProblem, ours: BuiltKey): Promise<number | null> => {
  const search = (): number | null => {
    let left = patience;
    const from = (state: State): number => {
      left -= state.subjects.length * problem.checks.length;
      if (left < 0) return Number.NaN;
      if (labelsOf(problem, state).length < 2) return 0;
      let least = Number.POSITIVE_INFINITY;
      for (const step of stepsAt(problem, state)) {
        let expected = step.minutes;
        for (const way of step.ways) expected += way.share * from(after(problem, state, step, way));
        if (Number.isNaN(expected)) return expected;
        least = Math.min(least, expected);
      }
      return least === Number.POSITIVE_INFINITY ? 0 : least;
    };
    const found = from(startOf(problem));
    return Number.isNaN(found) ? null : found;
  };
  const found = search();
  if (found === null) return null;
  if (ours.optimal && Math.abs(found - ours.expected) > 1e-9) throw new Error(`plain search: ${found} minutes, ours ${ours.expected}`);
  return (await timed(1, search)).median;
};
