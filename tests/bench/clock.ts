/** Times of repeated runs, in milliseconds: by the clock on the wall, and `cpu` as the process was charged for, which others on the machine disturb less. */
export interface Timing {
  readonly median: number;
  readonly least: number;
  /** Median. */
  readonly cpu: number;
  readonly runs: number;
}

/** A job that takes longer than this, in milliseconds, is not run again for a better figure. */
const patience = 5000;

/** Runs once to warm up, then `runs` times; the median stands for the rest. Of a slow job the first run is the figure. */
export const timed = async (runs: number, job: () => unknown): Promise<Timing> => {
  const once = async () => {
    const [start, charged] = [performance.now(), process.cpuUsage()];
    await job();
    const { user, system } = process.cpuUsage(charged);
    return { wall: performance.now() - start, cpu: (user + system) / 1000 };
  };
  const first = await once();
  if (first.wall > patience) return { median: first.wall, least: first.wall, cpu: first.cpu, runs: 1 };
  const times: { readonly wall: number; readonly cpu: number }[] = [];
  for (let i = 0; i < runs; i++) times.push(await once());
  const walls = times.map(({ wall }) => wall);
  return { median: median(walls), least: Math.min(...walls), cpu: median(times.map(({ cpu }) => cpu)), runs };
};

/** A sample of a short job takes at least so long, in milliseconds: what else the process does, and reading its clock, is a good part of a job shorter than that. */
const sampled = 5;

/** The same of a job that may take less than a millisecond, the cpu time alone: each of the runs is of as many jobs as take a while, of which the mean stands. */
export const cpuOfShort = async (runs: number, job: () => unknown): Promise<number> => {
  const { least } = await timed(1, job);
  const jobs = Math.ceil(sampled / Math.max(least, 0.01));
  const many = async () => {
    for (let i = 0; i < jobs; i += 1) await job();
  };
  return (await timed(runs, many)).cpu / jobs;
};

/** `12.3 ms`, `0.45 ms`, `2.31 s`: three figures that mean something. */
export const inWords = (milliseconds: number): string =>
  milliseconds >= 1000 ? `${(milliseconds / 1000).toPrecision(3)} s` : `${milliseconds.toPrecision(3)} ms`;

/** `3.7×`, `16×`, `5800×`: two figures. */
export const asRatio = (ratio: number): string => `${Number(ratio.toPrecision(2))}×`;

/** Lines up columns; numbers to the right. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string => {
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => (row[i] ?? '').length)));
  const line = (cells: readonly string[]) =>
    cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0))).join('  ');
  return [line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line)].join('\n');
};

export const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] as number;

/** How steeply cost grows: the slope of the line of least squares through the logarithms. 1 is in step with the size, 2 with its square. */
export const slopeOf = (sizes: readonly number[], costs: readonly number[]): number => {
  const [xs, ys] = [sizes.map(Math.log), costs.map(Math.log)];
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [x, y] = [mean(xs), mean(ys)];
  return xs.reduce((sum, one, i) => sum + (one - x) * ((ys[i] as number) - y), 0) / xs.reduce((sum, one) => sum + (one - x) ** 2, 0);
};
