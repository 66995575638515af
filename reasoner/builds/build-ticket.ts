import type { NameAnswer, Verdict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { MakerId, SlotId } from '../ids.ts';
import { withArticle } from '../plain/text.ts';
import { list } from './build-words.ts';
import type { BuildClause, Plan } from './plan.ts';

type Built = Pick<Plan, 'slots' | 'works' | 'joints' | 'verdict'>;

/**
 * The two texts of a build's ticket (W1), every clause a whole sentence: those the ladder gives for its parts, and what only a build can say. A part keeps its name after work and is
 * called machined; a maker's name stays with its part unless a model or a core of that maker stands (N5).
 */
export const buildTicket = (atlas: CompiledAtlas, base: Verdict['ticket'], honest: readonly NameAnswer[], built: Built): Plan['ticket'] => {
  const rung = honest[0]?.name.rung ?? 'parts';
  const whole = rung === 'model' || rung === 'model with options' || rung === 'model with service parts replaced';
  const filled = built.slots.filter(({ part }) => part !== null);
  return {
    may: [
      ...base.may,
      ...(whole ? [] : filled).map(
        ({ slot, text }): BuildClause => ({
          text: `The ${slotNameOf(atlas, slot)} of this unit is to be the ${text}.`,
          because: [{ kind: 'chosen', slot }],
        }),
      ),
      ...machinedClauses(atlas, built, whole),
    ],
    mustNot: [...base.mustNot, ...aboutMakers(atlas, honest, built), ...aboutWork(atlas, built), ...aboutFits(atlas, built)],
  };
};

/** Where the name speaks for the whole, the work still has to be told. */
const machinedClauses = (atlas: CompiledAtlas, { slots, works }: Built, whole: boolean): BuildClause[] =>
  !whole
    ? []
    : slots
        .filter(({ machined }) => machined)
        .map(({ slot }) => ({
          text: `The ${slotNameOf(atlas, slot)} of this unit ${isWorked(works, slot) ? 'will have been' : 'was'} machined.`,
          because: whyMachined(works, slot),
        }));

const isWorked = (works: Built['works'], slot: SlotId): boolean => works.some((work) => work.slot === slot);

/** The works to be done on it; of a part that came machined, that it was chosen. */
const whyMachined = (works: Built['works'], slot: SlotId): BuildClause['because'] =>
  isWorked(works, slot)
    ? works.flatMap((work, index) => (work.slot === slot ? [{ kind: 'work', index } as const] : []))
    : [{ kind: 'chosen', slot }];

const aboutMakers = (atlas: CompiledAtlas, honest: readonly NameAnswer[], { slots }: Built): BuildClause[] => {
  const carried = new Set(honest.map(({ name }) => name.maker));
  const byMaker = new Map<MakerId, SlotId[]>();
  const patterns: SlotId[] = [];
  for (const { slot, part } of slots) {
    const of = part === null ? undefined : atlas.parts.get(part);
    if (of === undefined) continue;
    if (of.maker === null) patterns.push(slot);
    else if (!carried.has(of.maker)) byMaker.set(of.maker, [...(byMaker.get(of.maker) ?? []), slot]);
  }
  const because = (where: readonly SlotId[]) => where.map((slot) => ({ kind: 'chosen', slot }) as const);
  const names = (where: readonly SlotId[]) => list(where.map((slot) => slotNameOf(atlas, slot)));
  return [
    ...[...byMaker].map(([maker, where]) => ({
      text: `This unit must not be described as ${withArticle(atlas.makers.get(maker)?.name ?? maker)} unit: the name belongs to the ${names(where)} and says nothing of the rest.`,
      because: because(where),
    })),
    ...(patterns.length === 0
      ? []
      : [
          {
            text: `This unit must not be described as made throughout by one maker: the ${names(patterns)} ${patterns.length === 1 ? 'is a pattern part and bears' : 'are pattern parts and bear'} no maker’s name.`,
            because: because(patterns),
          },
        ]),
  ];
};

const aboutWork = (atlas: CompiledAtlas, { slots, works }: Built): BuildClause[] => {
  const machined = slots.filter(({ machined: is }) => is).map(({ slot }) => slot);
  if (machined.length === 0) return [];
  const [will, was] = [machined.filter((slot) => isWorked(works, slot)), machined.filter((slot) => !isWorked(works, slot))];
  const said = (which: readonly SlotId[], verb: string): string[] =>
    which.length === 0 ? [] : [`the ${list(which.map((slot) => slotNameOf(atlas, slot)))} ${verb}`];
  const why = [...said(will, 'will have been machined'), ...said(was, was.length === 1 ? 'was machined before' : 'were machined before')];
  return [
    {
      text: `This unit must not be described as unmodified: ${list(why)}.`,
      because: machined.flatMap((slot) => whyMachined(works, slot)),
    },
  ];
};

const aboutFits = (atlas: CompiledAtlas, { joints }: Built): BuildClause[] => {
  const failing = joints.filter(({ verdict }) => verdict === 'will not fit');
  if (failing.length === 0) return [];
  const names = failing.map(({ joint }) => atlas.joints.find((each) => each.data.id === joint)?.data.name ?? joint);
  return [
    {
      text: `This unit must not be described as one that can be built: ${list(names)} will not fit.`,
      because: failing.map(({ joint }) => ({ kind: 'joint', joint })),
    },
  ];
};
