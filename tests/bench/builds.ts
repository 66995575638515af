import {
  type Atlas,
  type CompiledAtlas,
  compileAtlas,
  completeBuild,
  fitOf,
  type PartId,
  type Sheet,
  type SlotId,
} from '../../reasoner/index.ts';
import { type Axis, bestByClingo, buildProgram } from '../oracle/ask-clingo-builds.ts';
import { asRatio, inWords, median, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';

/** Everything a part fits: from the fits kept with the atlas as the window asks, and every pair judged anew. */
export const fitsOfOnePart = async ({ desk, atlas }: DemoDesk): Promise<void> => {
  const compiled = compileAtlas(atlas);
  const rows: { slot: string; kept: number; anew: number; partners: number }[] = [];
  for (const slot of atlas.slots) {
    const parts = atlas.parts.filter((part) => part.slot === slot.id).filter((_, i) => i % 10 === 0);
    for (const { id } of parts) {
      const asked = { part: id };
      const { partners } = answered(await desk['atlas.fits'](asked));
      const kept = await timed(5, () => desk['atlas.fits'](asked));
      const anew = await timed(5, () => judgeAll(compiled, id));
      rows.push({ slot: slot.name, kept: kept.median, anew: anew.median, partners: partners.length });
    }
  }
  const of = (slot: string) => rows.filter((row) => row.slot === slot);
  console.log('\nAll fits of one part, medians over every tenth part of a slot: as the window asks, and every pair judged anew.\n');
  console.log(
    table(
      ['slot', 'partners', 'as the window asks', 'judged anew', 'anew / asked'],
      atlas.slots.map(({ name }) => {
        const [kept, anew] = [median(of(name).map((row) => row.kept)), median(of(name).map((row) => row.anew))];
        return [name, String(median(of(name).map((row) => row.partners))), inWords(kept), inWords(anew), asRatio(anew / kept)];
      }),
    ),
  );
};

const judgeAll = (atlas: CompiledAtlas, part: PartId): number => {
  const number = atlas.slotNumber.get(atlas.parts.get(part)?.slot as SlotId);
  let fits = 0;
  for (const { data: joint, a, b } of atlas.joints) {
    if (a !== number && b !== number) continue;
    for (const other of atlas.slots[a === number ? b : a]?.parts ?? [])
      if (fitOf(atlas, joint.id, part, other.id).verdict !== 'will not fit') fits += 1;
  }
  return fits;
};

const order: readonly Axis[] = ['rank', 'money', 'hours', 'works'];

/**
 * "Fill the open slots" beside clingo on the same instance: ours finds every build no other beats, clingo one best build by name, money, hours and works.
 * clingo is handed every pair of parts judged already; ours judges the pairs it meets. Stacks are left out of both, and parts without a price are given a high one.
 */
export const completions = async ({ desk, atlas }: DemoDesk): Promise<void> => {
  const instance = withoutStacks(atlas);
  const compiled = compileAtlas(instance);
  const sheet = answered(await desk['sheets.open']({ id: 's24-alder-on-tern' as Sheet['id'] }));
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
