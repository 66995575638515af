import { expect, test } from 'vitest';
import { leaving, Runs } from '../../../electron/desk/runs.ts';

/** Counts to three, a step a turn; stopped, it has what it counted. */
function* counting(): Generator<number, string, boolean | undefined> {
  for (let done = 1; done <= 3; done += 1) if ((yield done) === true) return `stopped at ${done}`;
  return 'counted';
}
// biome-ignore lint/correctness/useYield: it fails before it has anything to say.
function* failing(): Generator<number, string, boolean | undefined> {
  throw new Error('a bug in a run');
}
const over = async <T>(runs: Runs<T, string>, token: string): Promise<string> => {
  for (;;) {
    const state = runs.stateOf(token);
    if (state?.state === 'done') return state.result;
    await new Promise((turn) => setImmediate(turn));
  }
};

test('[B3] a run that fails is a failure to whoever asks about it; the others go on', async () => {
  const runs = new Runs<number, string>({ turn: 0 });
  const [fails, counts] = [runs.start(failing(), 0), runs.start(counting(), 0)];
  expect(runs.stateOf(fails)).toEqual({ state: 'running', progress: 0 });
  await expect(over(runs, fails)).rejects.toThrow('a bug in a run');
  expect(await over(runs, counts)).toBe('counted');
});

test('[B3] what is begun while a window is answered stops once it has left, and what is begun for another does not', async () => {
  const runs = new Runs<number, string>({ turn: 0 });
  const [left, here] = [new AbortController(), new AbortController()];
  const tokens = [left, here].map(({ signal }) => leaving.run(signal, () => runs.start(counting(), 0)));
  const ofNobody = runs.start(counting(), 0);
  left.abort();
  expect(await Promise.all([...tokens, ofNobody].map((token) => over(runs, token)))).toEqual(['stopped at 1', 'counted', 'counted']);
});

test('[B3] those that failed or ended are dropped, oldest first, beyond those that are kept', async () => {
  const runs = new Runs<number, string>({ turn: 0, keep: 1 });
  const fails = runs.start(failing(), 0);
  await expect(over(runs, fails)).rejects.toThrow('a bug in a run');
  const counts = runs.start(counting(), 0);
  expect(await over(runs, counts)).toBe('counted');
  expect([runs.stateOf(fails), runs.stateOf(counts)?.state]).toEqual([null, 'done']);
});
