import { type Answer, answer, compileAtlas } from '../../reasoner/index.ts';
import { wholeUnit } from '../unit/why/whole-unit.ts';
import { asRatio, inWords, median, table, timed } from './clock.ts';
import type { DemoDesk } from './demo-desk.ts';

/** Entries of four parts read as another model has them: a miscount, a wrong mark, two sizes. */
const wrong: Readonly<Record<string, string>> = {
  'compressor-housing-area-ratio': 'gannet-20',
  'compressor-wheel-exducer': 'petrel-17-cartridge',
  'bearing-housing-bearing-bore': 'rowan-iv-18',
  'turbine-wheel-blades': 'rowan-iv-18',
};
const models = [
  'petrel-13-cartridge',
  'petrel-11-cartridge',
  'skua-13-cartridge',
  'skua-17-cartridge',
  'gannet-12-cartridge',
  'gannet-16-cartridge',
];

/**
 * Units looked at through and through, every feature the atlas knows entered, of which four are wrong: the worst there is for the enumeration of reasons (K1). Beside the
 * verdict as the window asks for it, one for which it is asked to look further.
 */
export const wholeUnits = async ({ atlas }: DemoDesk): Promise<void> => {
  const compiled = compileAtlas(atlas);
  const rows: { readonly cells: readonly string[]; readonly cpu: number; readonly ratio: number }[] = [];
  for (const model of models) {
    const sheet = wholeUnit(compiled, model, wrong);
    const usual = await timed(5, () => answer(compiled, sheet));
    const further = await timed(1, () => answer(compiled, sheet, { effort: { conflicts: 20_000, questions: 20_000 } }));
    rows.push({
      cells: [
        model,
        String(sheet.observations.length),
        said(answer(compiled, sheet)),
        inWords(usual.cpu),
        inWords(further.cpu),
        asRatio(further.cpu / usual.cpu),
      ],
      cpu: usual.cpu,
      ratio: further.cpu / usual.cpu,
    });
    process.stderr.write(`${model} `);
  }
  process.stderr.write('\n');
  console.log('\nVerdicts on whole units with four wrong entries, processor time.\n');
  console.log(
    table(
      ['unit of', 'entries', 'independent reasons', 'as asked', 'looked further', 'ratio'],
      rows.map(({ cells }) => cells),
    ),
  );
  console.log(
    `\nMedian ${inWords(median(rows.map(({ cpu }) => cpu)))}, worst ${inWords(Math.max(...rows.map(({ cpu }) => cpu)))}; median ratio ${asRatio(median(rows.map(({ ratio }) => ratio)))}.`,
  );
};

const said = (verdict: Answer): string => {
  if (verdict.kind !== 'verdict') return 'contradiction';
  const { claim, names } = verdict;
  const independent = names.find(({ name }) => name.id === claim?.name)?.conflicts?.independent;
  return independent === undefined ? '' : `${independent.exact ? '' : 'at least '}${independent.count}`;
};
