import type { NameRule } from '../../../reasoner/compile/name-rule.ts';
import { type Atlas, answer, answerInBrief, compileAtlas, type Sheet } from '../../../reasoner/index.ts';
import { ladderOf } from '../../../reasoner/names/ladder.ts';
import { type Unit, unitOf } from '../../../reasoner/unit/unit.ts';
import { asRatio, cpuOfShort, inWords, median, table } from '../clock.ts';
import type { DemoDesk } from '../demo-desk.ts';
import { largerAtlas } from '../larger-atlas.ts';
import { wildAtlas } from '../wild/wild-atlas.ts';
import { wildSheets } from '../wild/wild-sheets.ts';
import { SqlPeer } from './sql-peer.ts';
import { StoredPeer } from './stored-peer.ts';

/** What is better than plain SQL is so many times faster. */
const wanted = 10;
const forms = ['tables for it', 'as kept'] as const;
type Form = (typeof forms)[number];
const ours = ['bare', 'statuses', 'verdict'] as const;
const called = { bare: 'the same question', statuses: 'our statuses', verdict: 'the verdict' } as const;

/** Plain SQL in one form or the other. */
interface Peer {
  /** The names it was given; a name's number is its place. */
  readonly names: readonly NameRule[];
  /** By number, the names that are not ruled out, and whether each stands. */
  statuses(sheet: Sheet): Promise<ReadonlyMap<number, boolean>>;
  close(): Promise<void>;
}

/**
 * The statuses of names by plain SQL in memory, over tables made and indexed for nothing else and over those the desk keeps the atlas in, beside ours and beside the verdict as the window is told it, on copies of the
 * demo atlas and on one made by a seed. Ours are of the whole atlas and of all names, joints, machining, open-ended lists and all; those of SQL leave them out, and are held to what we say of the atlas without them.
 */
export const besidePlainSql = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  const short: string[] = [];
  for (const times of scales) {
    for (const kind of ['copies', 'wild'] as const) {
      const larger = kind === 'copies' ? largerAtlas(atlas, times) : wildAtlas(atlas, times * atlas.parts.length);
      const asked = kind === 'copies' ? sheets : wildSheets(larger, 21).map(({ sheet }) => sheet);
      const { names, costs } = await measure(larger, asked);
      const both = (values: readonly number[]) => [inWords(median(values)), inWords(worst(values))];
      for (const form of forms) {
        const name = `${larger.parts.length} parts, ${kind}, ${form}`;
        const sql = costs.map((each) => each[form]);
        const ratios = (what: (typeof ours)[number]) => costs.map((each) => each[form] / each[what]);
        rows.push([
          name,
          String(names[form]),
          String(costs.length),
          ...both(sql),
          ...ours.flatMap((what) => both(costs.map((each) => each[what]))),
          ...ours.flatMap((what) => [asRatio(median(ratios(what))), asRatio(worst(sql) / worst(costs.map((each) => each[what])))]),
        ]);
        for (const what of ours) {
          const faster = median(ratios(what));
          if (faster < wanted) short.push(`${name}: ${called[what]} ${asRatio(faster)} at the median`);
        }
      }
      process.stderr.write(`${larger.parts.length} parts, ${kind} `);
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

interface Costs extends Readonly<Record<Form, number>> {
  /** Ours of the same question: no joints, no work done on parts. */
  readonly bare: number;
  readonly statuses: number;
  readonly verdict: number;
}

interface Measured {
  /** How many names each form was given. */
  readonly names: Readonly<Record<Form, number>>;
  readonly costs: readonly Costs[];
}

const worst = (values: readonly number[]): number => Math.max(...values);

const measure = async (atlas: Atlas, sheets: readonly Sheet[]): Promise<Measured> => {
  const compiled = compileAtlas(atlas);
  compiled.found();
  const peers: Readonly<Record<Form, Peer>> = { 'tables for it': await SqlPeer.of(compiled), 'as kept': await StoredPeer.of(compiled) };
  const bare = compileAtlas({ ...atlas, joints: [], chains: [], operations: [], warmth: [] });
  const asked: Sheet[] = [];
  for (const sheet of sheets) {
    // Entries that contradict each other have no verdict.
    if (answer(compiled, sheet, { explain: 'none' }).kind !== 'verdict') continue;
    const unit = unitOf(bare, sheet);
    // A number on the plate that is no listed one is not asked of SQL.
    if (unit.slots.some(({ unlisted }) => unlisted !== null)) continue;
    for (const form of forms) await holdTo(unit, peers[form], form);
    asked.push(sheet);
  }
  const jobs: Readonly<Record<keyof Costs, (sheet: Sheet) => unknown>> = {
    'tables for it': (sheet) => peers['tables for it'].statuses(sheet),
    'as kept': (sheet) => peers['as kept'].statuses(sheet),
    bare: (sheet) => ladderOf(unitOf(bare, sheet)),
    statuses: (sheet) => ladderOf(unitOf(compiled, sheet)),
    verdict: (sheet) => answerInBrief(compiled, sheet),
  };
  for (const job of Object.values(jobs)) await warmUp(asked, job);
  const costs: Costs[] = [];
  for (const sheet of asked) {
    const of = (what: keyof Costs) => cpuOfShort(5, () => jobs[what](sheet));
    costs.push({
      'tables for it': await of('tables for it'),
      'as kept': await of('as kept'),
      bare: await of('bare'),
      statuses: await of('statuses'),
      verdict: await of('verdict'),
    });
  }
  const names = { 'tables for it': peers['tables for it'].names.length, 'as kept': peers['as kept'].names.length };
  for (const form of forms) await peers[form].close();
  return { names, costs };
};

/** So long a question is asked beforehand, in milliseconds, at least once of each sheet: a desk has been open for hours. */
const warming = 1000;

const warmUp = async (sheets: readonly Sheet[], job: (sheet: Sheet) => unknown): Promise<void> => {
  const start = performance.now();
  do {
    for (const sheet of sheets) await job(sheet);
  } while (performance.now() - start < warming);
};

/** @throws where a status by SQL is another than ours on the atlas without joints and work */
const holdTo = async (unit: Unit, peer: Peer, form: Form): Promise<void> => {
  const known = new Map(
    ladderOf(unit)
      .all()
      .map(({ rule, status }) => [rule.name.id, status]),
  );
  const theirs = await peer.statuses(unit.sheet);
  for (const [number, { name }] of peer.names.entries()) {
    const stands = theirs.get(number);
    const said = stands === undefined ? 'ruled out' : stands ? 'stands' : 'open';
    if (known.get(name.id) !== said) throw new Error(`${unit.sheet.id}: ${name.text} ${said} by SQL, ${form}; ours ${known.get(name.id)}`);
  }
};
