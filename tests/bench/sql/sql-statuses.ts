import { type Atlas, answer, answerInBrief, type CompiledAtlas, compileAtlas, type Sheet } from '../../../reasoner/index.ts';
import { ladderOf } from '../../../reasoner/names/ladder.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { asRatio, inWords, median, table, timed } from '../clock.ts';
import type { DemoDesk } from '../demo-desk.ts';
import { largerAtlas } from '../larger-atlas.ts';
import { wildAtlas } from '../wild/wild-atlas.ts';
import { wildSheets } from '../wild/wild-sheets.ts';
import { SqlPeer } from './sql-peer.ts';

/** What is better than plain SQL is so many times faster. */
const wanted = 10;
const ours = ['bare', 'statuses', 'verdict'] as const;
const called = { bare: 'the same question', statuses: 'our statuses', verdict: 'the verdict' } as const;

/**
 * The statuses of every name by plain SQL over indexed tables in memory, beside ours and beside the verdict as the window is told it, on copies of the demo atlas and on one made by a seed.
 * Ours are of the whole atlas, joints, machining, open-ended lists and all; those of SQL leave them out, and are held to what we say of the atlas without them.
 */
export const besidePlainSql = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  const short: string[] = [];
  for (const times of scales) {
    for (const kind of ['copies', 'wild'] as const) {
      const larger = kind === 'copies' ? largerAtlas(atlas, times) : wildAtlas(atlas, times * atlas.parts.length);
      const asked = kind === 'copies' ? sheets : wildSheets(larger, 21).map(({ sheet }) => sheet);
      const measured = await measure(larger, asked);
      const of = (what: keyof Costs, from: (values: readonly number[]) => number) => from(measured.costs.map((each) => each[what]));
      const ratios = (what: (typeof ours)[number]) => measured.costs.map((each) => each.sql / each[what]);
      const name = `${larger.parts.length} parts, ${kind}`;
      rows.push([
        name,
        String(measured.names),
        String(measured.costs.length),
        ...(['sql', ...ours] as const).flatMap((what) => [inWords(of(what, median)), inWords(of(what, worst))]),
        ...ours.flatMap((what) => [asRatio(median(ratios(what))), asRatio(of('sql', worst) / of(what, worst))]),
      ]);
      for (const what of ours) {
        const times = median(ratios(what));
        if (times < wanted) short.push(`${name}: ${called[what]} ${asRatio(times)} at the median`);
      }
      process.stderr.write(`${name} `);
    }
  }
  process.stderr.write('\n');
  console.log(
    '\nStatuses of names by plain SQL; ours of the same question, without joints; ours with them; and the verdict as the window is told it: cpu time, median and worst sheet, and SQL over ours.\n',
  );
  const head = ['atlas', 'names', 'sheets', 'SQL', 'worst', 'same asked', 'worst', 'statuses', 'worst', 'verdict', 'worst'];
  console.log(table([...head, 'SQL / same', 'of worst', 'SQL / statuses', 'of worst', 'SQL / verdict', 'of worst'], rows));
  console.log(
    short.length === 0
      ? `\nEverywhere at least ${wanted} times faster.`
      : `\nNot ${wanted} times faster than plain SQL:\n${short.join('\n')}`,
  );
};

interface Costs {
  readonly sql: number;
  /** Ours of the same question: no joints, no work done on parts. */
  readonly bare: number;
  readonly statuses: number;
  readonly verdict: number;
}

const worst = (values: readonly number[]): number => Math.max(...values);

const measure = async (atlas: Atlas, sheets: readonly Sheet[]): Promise<{ readonly names: number; readonly costs: readonly Costs[] }> => {
  const compiled = compileAtlas(atlas);
  compiled.found();
  const peer = await SqlPeer.of(compiled);
  const bare = compileAtlas({ ...atlas, joints: [], chains: [], operations: [], warmth: [] });
  const costs: Costs[] = [];
  for (const sheet of sheets) {
    // Entries that contradict each other have no verdict.
    if (answer(compiled, sheet, { explain: 'none' }).kind !== 'verdict' || !(await agree(peer, bare, sheet))) continue;
    costs.push({
      sql: (await timed(5, () => peer.statuses(sheet))).cpu,
      bare: (await timed(5, () => ladderOf(unitOf(bare, sheet)))).cpu,
      statuses: (await timed(5, () => ladderOf(unitOf(compiled, sheet)))).cpu,
      verdict: (await timed(5, () => answerInBrief(compiled, sheet))).cpu,
    });
  }
  await peer.close();
  return { names: peer.names.length, costs };
};

/**
 * Whether the sheet can be asked of SQL: not where a number on the plate is no listed one.
 * @throws where a status by SQL is another than ours on the atlas without joints and work
 */
const agree = async (peer: SqlPeer, bare: CompiledAtlas, sheet: Sheet): Promise<boolean> => {
  const unit = unitOf(bare, sheet);
  if (unit.slots.some(({ unlisted }) => unlisted !== null)) return false;
  const known = new Map(
    ladderOf(unit)
      .all()
      .map(({ rule, status }) => [rule.name.id, status]),
  );
  const theirs = await peer.statuses(sheet);
  for (const [number, { name }] of peer.names.entries()) {
    const stands = theirs.get(number);
    const said = stands === undefined ? 'ruled out' : stands ? 'stands' : 'open';
    if (known.get(name.id) !== said) throw new Error(`${sheet.id}: ${name.text} ${said} by SQL, ours ${known.get(name.id)}`);
  }
  return true;
};
