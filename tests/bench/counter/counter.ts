import { inWords, table } from '../clock.ts';
import type { DemoDesk } from '../demo-desk.ts';
import { heldAtlas } from './held-atlas.ts';
import { memoryOfDesk } from './memory-of-desk.ts';
import { type Searched, searchesIn } from './searches.ts';

/** What a counter sees of an atlas as it grows: how long a search takes as one types, and what memory the desk takes once it has been asked a few things. */
export const whatACounterSees = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const [searches, memory]: [string[][], string[][]] = [[], []];
  for (const times of scales) {
    const folder = await heldAtlas(atlas, times);
    const parts = [`${times}×`, String(times * atlas.parts.length)];
    const took = await searchesIn(folder);
    for (const [sort, of] of [...Object.entries(took), ['all', Object.values(took).flat()] as const])
      searches.push([...parts, sort, ...row(of)]);
    memory.push([...parts, ...memoryOfDesk(folder, sheets)]);
    process.stderr.write(`${times}× `);
  }
  process.stderr.write('\n');
  console.log('\nA search after each key, through the desk’s own call.\n');
  console.log(table(['atlas', 'parts', 'typed', 'searches', 'cpu, median', '95th', 'worst', 'clock, 95th', 'the worst'], searches));
  console.log('\nResident memory of the host’s process with its workers.\n');
  console.log(table(['atlas', 'parts', 'open', 'asked', 'at rest', 'at most', 'verdict', 'odds'], memory));
};

const row = (of: readonly Searched[]): string[] => {
  const at = (what: 'cpu' | 'clock', share: number) =>
    shareOf(
      of.map((each) => each[what]),
      share,
    );
  const worst = of.reduce((most, each) => (each.cpu > most.cpu ? each : most));
  return [
    String(of.length),
    inWords(at('cpu', 0.5)),
    inWords(at('cpu', 0.95)),
    inWords(worst.cpu),
    inWords(at('clock', 0.95)),
    `“${worst.text}”`,
  ];
};

/** The value that such a share of all is not above. */
export const shareOf = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] as number;
};
