import { answer, answerInBrief, type CompiledAtlas, compileAtlas, type Sheet } from '../../reasoner/index.ts';
import { ladderOf } from '../../reasoner/names/ladder.ts';
import { unitOf } from '../../reasoner/unit/unit.ts';
import { asRatio, inWords, median, slopeOf, table, timed } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';
import { Floor } from './floor.ts';
import { largerAtlas } from './larger-atlas.ts';
import { wildAtlas } from './wild/wild-atlas.ts';
import { wildSheets } from './wild/wild-sheets.ts';

/** Verdicts on sheets of six entries beside the least work that could tell which names are left, in one run, and how both grow with the atlas. */
export const aboveTheFloor = async ({ atlas, sheets }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const rows: string[][] = [];
  const growth: string[] = [];
  const short = sheets
    .filter(({ observations }) => observations.length >= 6)
    .map((sheet) => ({ ...sheet, observations: sheet.observations.slice(0, 6) }));
  for (const kind of ['copies', 'wild'] as const) {
    const sizes: number[] = [];
    const costs: { readonly floor: number; readonly statuses: number; readonly verdict: number }[] = [];
    for (const times of scales) {
      const larger = kind === 'copies' ? largerAtlas(atlas, times) : wildAtlas(atlas, times * atlas.parts.length);
      const asked = kind === 'copies' ? short : wildSheets(larger, 28).flatMap((each) => (each.kind === 'six entries' ? [each.sheet] : []));
      const compiled = compileAtlas(larger);
      compiled.found();
      const floor = new Floor(compiled);
      const measured: { floor: number; statuses: number; verdict: number; undecided: number }[] = [];
      for (const sheet of asked) {
        if (answer(compiled, sheet, { explain: 'none' }).kind !== 'verdict') continue;
        const { undecided } = held(floor, compiled, sheet);
        measured.push({
          undecided,
          floor: (await timed(25, () => floor.answer(sheet))).cpu,
          statuses: (await timed(9, () => ladderOf(unitOf(compiled, sheet)))).cpu,
          verdict: (await timed(9, () => answerInBrief(compiled, sheet))).cpu,
        });
      }
      const of = (what: keyof (typeof measured)[number]) => median(measured.map((each) => each[what]));
      const above = (what: 'statuses' | 'verdict') => asRatio(median(measured.map((each) => each[what] / each.floor)));
      sizes.push(larger.parts.length);
      costs.push({ floor: of('floor'), statuses: of('statuses'), verdict: of('verdict') });
      rows.push([
        `${larger.parts.length} parts, ${kind}`,
        String(measured.length),
        `${floor.names.length} of ${compiled.names.length}`,
        String(of('undecided')),
        ...(['floor', 'statuses', 'verdict'] as const).map((what) => inWords(of(what))),
        above('statuses'),
        above('verdict'),
      ]);
      process.stderr.write(`${kind} ${times}× `);
    }
    const power = (what: 'floor' | 'statuses' | 'verdict') =>
      slopeOf(
        sizes,
        costs.map((each) => each[what]),
      ).toFixed(2);
    if (sizes.length > 1)
      growth.push(`${kind}: the floor n^${power('floor')}, statuses n^${power('statuses')}, the verdict n^${power('verdict')}`);
  }
  process.stderr.write('\n');
  console.log(
    '\nSheets of six entries: the floor (agreeing parts by sorted columns and bits, a known witness of each name looked at), statuses, and the verdict as the window is told it; medians of cpu time, ratios sheet by sheet.\n',
  );
  console.log(
    table(
      ['atlas', 'sheets', 'names with a witness', 'undecided', 'floor', 'statuses', 'verdict', 'statuses / floor', 'verdict / floor'],
      rows,
    ),
  );
  console.log(`\nGrowth with the parts, medians:\n${growth.join('\n')}`);
};

/** @throws where the floor finds a name possible that we rule out */
const held = (floor: Floor, compiled: CompiledAtlas, sheet: Sheet) => {
  const said = floor.answer(sheet);
  const out = new Set(
    ladderOf(unitOf(compiled, sheet))
      .all()
      .flatMap(({ rule, status }) => (status === 'ruled out' ? [rule] : [])),
  );
  const wrong = said.possible.map((name) => floor.names[name]).find((rule) => rule !== undefined && out.has(rule));
  if (wrong !== undefined) throw new Error(`${sheet.id}: ${wrong.name.text} is ruled out, and a unit of it would be as was seen`);
  return said;
};
