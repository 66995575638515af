import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { openStaff, type Staff } from '../../../electron/desk/staff/staff.ts';
import type { Sheet } from '../../../reasoner/index.ts';
import { median } from '../clock.ts';

/** What `desk-memory.js <data folder>`, with sheets as JSON at its door, prints as JSON: resident memory in bytes, and medians in ms by the clock. */
export interface Remembered {
  /** Once the atlas has been read by whoever reasons. */
  readonly open: number;
  /** After verdicts and odds of a dozen sheets, some searches among them. */
  readonly asked: number;
  /** When nothing has been asked for a while. */
  readonly atRest: number;
  /** The most there was at any time. */
  readonly atMost: number;
  readonly verdict: number;
  readonly odds: number;
}

/** So many sheets are asked about, each after a few of its entries. */
const units = 12;
/** How long nothing is asked, ms. */
const rest = 8000;

const main = async (folder: string, sheets: readonly Sheet[]): Promise<Remembered> => {
  const opened = await openStaff({
    data: folder,
    packs: fileURLToPath(new URL('../../seed-data', import.meta.url)),
    program: { file: fileURLToPath(new URL('./worker.js', import.meta.url)) },
    tell: () => undefined,
    logBug: (place, error) => console.error(place, error),
  });
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  const staff = opened.value;
  const ask = asking(staff);
  const first = sheets[0] as Sheet;
  await ask('verdict.of', 'verdict', { sheet: { ...first, observations: [] } });
  const open = process.memoryUsage().rss;
  const [verdicts, odds]: [number[], number[]] = [[], []];
  for (const sheet of sheets.slice(0, units)) {
    const entered = { ...sheet, observations: sheet.observations.slice(0, 4) };
    await ask('atlas.search', 'search', { text: sheet.title.slice(0, 4) || 'a', limit: 60 });
    // As the window does: the odds are asked for once the verdict is there.
    verdicts.push(await ask('verdict.of', 'verdict', { sheet: entered }));
    odds.push(await ask('odds.of', 'odds', { sheet: entered }));
  }
  const asked = process.memoryUsage().rss;
  await new Promise((resolve) => setTimeout(resolve, rest));
  const atRest = process.memoryUsage().rss;
  await staff.close();
  return { open, asked, atRest, atMost: process.resourceUsage().maxRSS * 1024, verdict: median(verdicts), odds: median(odds) };
};

/** Asks as a window does; ms by the clock until the answer is there. */
const asking = (staff: Staff) => {
  let order = 0;
  return async (name: string, place: string, args: unknown): Promise<number> => {
    const began = performance.now();
    order += 1;
    const { text: bytes } = await staff.ask({ window: 'bench', place, order, name, args: JSON.stringify(args) });
    const reply = JSON.parse(new TextDecoder().decode(bytes)) as { readonly ok: boolean; readonly trouble?: { readonly sentence: string } };
    if (!reply.ok) throw new Error(`${name}: ${reply.trouble?.sentence}`);
    return performance.now() - began;
  };
};

const remembered = await main(process.argv[2] as string, JSON.parse(await text(process.stdin)) as Sheet[]);
console.log(JSON.stringify(remembered));
process.exit(0);
