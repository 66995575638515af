import { type Atlas, compileAtlas, completeBuild, type Sheet } from '../../reasoner/index.ts';
import { type Axis, bestByClingo, buildProgram } from '../oracle/ask-clingo-builds.ts';
import { asRatio, inWords, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';

const order: readonly Axis[] = ['rank', 'money', 'hours', 'works'];

/**
 * "Fill the open slots" beside clingo on the same instance: ours finds every build no other beats, clingo one best build by name, money, hours and works.
 * clingo is handed every pair of parts judged already; ours judges the pairs it meets. Stacks are left out of both, and parts without a price are given a high one.
 */
export const completions = async ({ desk, atlas }: DemoDesk): Promise<void> => {
  const instance = withoutStacks(atlas);
  const compiled = compileAtlas(instance);
  const { sheet } = answered(await desk['sheets.open']({ id: 's24-alder-on-tern' as Sheet['id'] }));
  const starts: readonly { readonly name: string; readonly empty: readonly string[] }[] = [
    { name: 'a compressor housing', empty: ['compressor-housing'] },
    { name: 'both housings', empty: ['compressor-housing', 'turbine-housing'] },
    { name: 'compressor end', empty: ['compressor-housing', 'compressor-wheel', 'backplate'] },
    {
      name: 'all but shaft, bearings and their housing',
      empty: ['compressor-housing', 'compressor-wheel', 'backplate', 'turbine-wheel', 'turbine-housing', 'heat-shield'],
    },
  ];
  const rows: string[][] = [];
  for (const { name, empty } of starts) {
    const start: Sheet = {
      ...sheet,
      chosen: Object.fromEntries(Object.entries(sheet.chosen).filter(([slot]) => !empty.includes(slot))),
    };
    const found = completeBuild(compiled, start, {}, { limit: 100_000 });
    const [first] = found.builds;
    const best = await bestByClingo(compiled, start, {}, order);
    if (best?.rank !== first?.rank || Math.abs((best?.money ?? 0) - (first?.cost ?? 0)) > 1e-6)
      throw new Error(`clingo on ${name}: ${JSON.stringify(best)}, ours ${JSON.stringify(first)}`);
    const ours = await timed(5, () => completeBuild(compiled, start, {}, { limit: 100_000 }));
    const program = await timed(1, () => buildProgram(compiled, start, {}));
    const clingo = await timed(3, () => bestByClingo(compiled, start, {}, order));
    // The fastest of each: a difference of medians on a busy machine can be nothing.
    const alone = clingo.least - program.least;
    rows.push([
      name,
      String(found.builds.length),
      String(found.looked),
      inWords(ours.median),
      alone > 0 ? inWords(alone) : 'too noisy',
      alone > 0 ? asRatio(alone / ours.least) : '',
    ]);
    process.stderr.write(`${name}, `);
  }
  process.stderr.write('\n');
  console.log(
    '\nFill the open slots, from a Tern 7 core: every build no other beats, beside one best build by clingo. Both found the same best.\n',
  );
  console.log(table(['empty slots', 'builds', 'choices', 'ours, all builds', 'clingo, one build', 'clingo / ours'], rows));
};

const withoutStacks = (atlas: Atlas): Atlas => {
  const priced = new Set(atlas.rates?.[0]?.parts.map(({ part }) => part));
  return {
    ...atlas,
    chains: [],
    rates: (atlas.rates ?? []).map((rates) => ({
      ...rates,
      parts: [...rates.parts, ...atlas.parts.filter(({ id }) => !priced.has(id)).map(({ id }) => ({ part: id, price: 999 }))],
    })),
  };
};
