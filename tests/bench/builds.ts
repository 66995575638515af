import { type Atlas, type CompiledAtlas, type CompletedBuild, compileAtlas, completeBuild, type Sheet } from '../../reasoner/index.ts';
import { type Axis, bestByClingo } from '../oracle/ask-clingo-builds.ts';
import type { ClingoTime } from '../oracle/clingo.ts';
import { asRatio, inWords, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';

const order: readonly Axis[] = ['rank', 'money', 'hours', 'works'];

/**
 * "Fill the open slots" beside clingo on the same instance: ours finds every build no other beats, clingo one best build by name, money, hours and works.
 * clingo is handed every pair of parts judged already, and takes what it says itself: reading, grounding and solving, or solving alone. Ours is asked for the first time of an edition whose names are
 * ranked, judging the pairs it meets, and again, the pairs remembered. Stacks are left out of both, and parts without a price are given a high one.
 */
export const completions = async ({ desk, atlas }: DemoDesk): Promise<void> => {
  const instance = withoutStacks(atlas);
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
    const compiled = compileAtlas(instance);
    completeBuild(compiled, sheet);
    const complete = () => completeBuild(compiled, start, {}, { limit: 100_000 });
    const anew = process.cpuUsage();
    const found = complete();
    const { user, system } = process.cpuUsage(anew);
    const first = (user + system) / 1000;
    const again = (await timed(15, complete)).cpu;
    const clingo = await byClingo(compiled, start, found.builds[0]);
    rows.push([
      name,
      String(found.builds.length),
      String(found.looked),
      ...[first, again, clingo.total, clingo.solving].map(inWords),
      ...[clingo.total / first, clingo.total / again, clingo.solving / again].map(asRatio),
    ]);
    process.stderr.write(`${name}, `);
  }
  process.stderr.write('\n');
  console.log(
    '\nFill the open slots, from a Tern 7 core: every build no other beats, cpu time, beside one best build by clingo, by its own clock. Both found the same best.\n',
  );
  const head = ['empty slots', 'builds', 'choices', 'ours, first', 'again', 'clingo', 'its solving', 'clingo / first', 'clingo / again'];
  console.log(table([...head, 'solving / again'], rows));
};

/**
 * The quickest of four, in milliseconds.
 * @throws where its best build is worth something else than ours
 */
const byClingo = async (atlas: CompiledAtlas, start: Sheet, ours: CompletedBuild | undefined): Promise<ClingoTime> => {
  const times: ClingoTime[] = [];
  for (let run = 0; run < 4; run += 1) {
    const best = await bestByClingo(atlas, start, {}, order, (time) => times.push(time));
    if (best?.rank !== ours?.rank || Math.abs((best?.money ?? 0) - (ours?.cost ?? 0)) > 1e-6)
      throw new Error(`clingo: ${JSON.stringify(best)}, ours ${JSON.stringify(ours)}`);
  }
  const quickest = (of: keyof ClingoTime) => Math.min(...times.map((time) => time[of])) * 1000;
  return { total: quickest('total'), solving: quickest('solving') };
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
