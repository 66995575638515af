import type { Outcome } from '../../db/index.ts';
import {
  asId,
  blankSheet,
  type CompiledAtlas,
  type Part,
  type Plan,
  partFits,
  planBuild,
  refusalPhrase,
  type Sheet,
  type SheetId,
} from '../../reasoner/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes, exitOfFit } from './exit-codes.ts';
import { atlasOptions, formatOption } from './option.ts';
import { jsonText, sayTrouble, type Terminal } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

/**
 * `kinplate fit`: two parts held against each other at every joint where they meet, with what the shop could do; or all that one part fits.
 * Each is named by its id, a number it was sold under, or its name.
 */
export const fitCommand = command({
  name: 'fit',
  words: {
    shown: '<part> [<part>]',
    least: 1,
    most: 2,
    otherwise: 'fit takes one part or two, each by its id, a number it was sold under, or its name.',
  },
  options: { ...formatOption, ...atlasOptions },
  help: ['all a part fits; two parts at their joints, with works'],
  run: ({ words: [first = '', second], options }, terminal) =>
    withAtlas(options, terminal, (atlas) => {
      const one = partAsked(atlas, first);
      if (!one.ok) return sayTrouble(terminal, one.trouble);
      if (second === undefined) return allFits(atlas, one.value, options.format, terminal);
      const other = partAsked(atlas, second);
      if (!other.ok) return sayTrouble(terminal, other.trouble);
      const plan = pairPlan(atlas, one.value, other.value);
      if (!plan.ok) return sayTrouble(terminal, plan.trouble);
      terminal.out(options.format === 'json' ? json(plan.value) : fitText(atlas, plan.value, [one.value, other.value]));
      return exitOfFit(plan.value.verdict);
    }),
});

/** One line for each part across each joint that does not fail, with what the shop can do; hours where that takes work. */
const allFits = (atlas: CompiledAtlas, part: Part, format: 'text' | 'json', terminal: Terminal): ExitCode => {
  const partners = partFits(atlas, part.id)
    .filter(({ worked }) => worked.verdict !== 'will not fit')
    .map(({ joint, other, worked }) => ({
      joint,
      part: other.id,
      verdict: worked.verdict,
      hours: worked.fit.verdict === 'drops in' ? 0 : (worked.plans[0]?.hours ?? null),
    }));
  terminal.out(
    format === 'json'
      ? jsonText({ kind: 'fits', edition: atlas.data.edition, part: part.id, partners })
      : partners.map(({ joint, part: id, verdict, hours }) => `${joint}\t${id}\t${verdict}\t${hours ?? ''}\n`).join(''),
  );
  return exitCodes.stands;
};

/** A part by its id, else by a number it was sold under, else by its name whatever the case. */
const partAsked = (atlas: CompiledAtlas, asked: string): Outcome<Part> => {
  const plain = asked.trim().toLowerCase();
  const all = atlas.data.parts;
  const named = all.filter(({ name }) => name.toLowerCase() === plain);
  const found = all.find(({ id }) => id === asked) ?? all.find(({ numbers }) => numbers.includes(asked));
  if (found !== undefined) return well(found);
  if (named.length === 1) return well(named[0] as Part);
  const near = named.length > 1 ? named : all.filter(({ id, name }) => id.includes(plain) || name.toLowerCase().includes(plain));
  const hint =
    near.length === 0
      ? ''
      : ` ${named.length > 1 ? 'Several bear that name' : 'Near it'}: ${near
          .slice(0, 5)
          .map(({ id }) => id)
          .join(', ')}.`;
  return refusal('no-such-part', asked, `The atlas has no one part with the id, number or name “${asked}”.${hint}`);
};

/** The build of these two parts and no others. */
const pairPlan = (atlas: CompiledAtlas, one: Part, other: Part): Outcome<Plan> => {
  const sheet: Sheet = {
    ...blankSheet(asId<SheetId>('fit')),
    kind: 'planned',
    chosen: { [one.slot]: one.id, [other.slot]: other.id },
  };
  const plan = planBuild(atlas, sheet);
  if (plan.kind === 'plan' && one.slot !== other.slot && plan.joints.length > 0) return well(plan);
  const slot = (part: Part): string => atlas.data.slots.find(({ id }) => id === part.slot)?.name ?? part.slot;
  return refusal(
    'no-joint',
    `${one.id}, ${other.id}`,
    `A ${slot(one)} and a ${slot(other)} do not meet: the atlas has no joint between them, so there is nothing to judge.`,
  );
};

/** As much of the plan as is about two parts; names and money are those of whole builds. */
const json = ({ edition, verdict, joints, chains, works, otherWays, cautions }: Plan): string =>
  jsonText({ kind: 'fit', edition, verdict, joints, chains, works, otherWays, cautions });

const fitText = (atlas: CompiledAtlas, plan: Plan, parts: readonly [Part, Part]): string => {
  const operation = (id: string): string => atlas.data.operations?.find((each) => each.id === id)?.name ?? id;
  const lines = [
    `${parts[0].name} and ${parts[1].name}: ${plan.verdict} (atlas ${plan.edition})`,
    ...plan.joints.flatMap(({ sentences, refused, verdict, warm }) => [
      '',
      ...sentences,
      ...(verdict === 'will not fit'
        ? refused.map((each) => `No help: ${operation(each.operation)} ${refusalPhrase(atlas, each.because)}.`)
        : []),
      ...warm.map(({ sentence }) => sentence),
    ]),
    ...plan.chains.flatMap(({ sentence }) => ['', sentence]),
    '',
    'Cautions:',
    ...plan.cautions.map((caution) => `  - ${caution}`),
  ];
  return `${lines.join('\n')}\n`;
};
