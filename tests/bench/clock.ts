/** Wall times of repeated runs, in milliseconds. */
export interface Timing {
  readonly median: number;
  readonly least: number;
  readonly runs: number;
}

/** A job that takes longer than this, in milliseconds, is not run again for a better figure. */
const patience = 5000;

/** Runs once to warm up, then `runs` times; the median stands for the rest. Of a slow job the first run is the figure. */
export const timed = async (runs: number, job: () => unknown): Promise<Timing> => {
  const once = async (): Promise<number> => {
    const start = performance.now();
    await job();
    return performance.now() - start;
  };
  const first = await once();
  if (first > patience) return { median: first, least: first, runs: 1 };
  const times: number[] = [];
  for (let i = 0; i < runs; i++) times.push(await once());
  times.sort((a, b) => a - b);
  return { median: median(times), least: times[0] as number, runs };
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
