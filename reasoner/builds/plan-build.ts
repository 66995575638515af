import type { Conflict, Conflicts, NameAnswer } from '../answer/verdict.ts';
import type { Part, Rates } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { isPlate } from '../compile/is-plate.ts';
import { type NameRule, notBarred } from '../compile/name-rule.ts';
import { fullNames } from '../compile/name-texts.ts';
import { judgeChain } from '../fits/chain.ts';
import type { Fit, FitVerdict } from '../fits/fit.ts';
import type { InHand } from '../fits/judge-joint.ts';
import { cautionsOfFit, fitCautions } from '../fits/work/cautions.ts';
import { worstOf } from '../fits/worst-of.ts';
import type { JointId, NameId, PartId, RatesId, SlotId } from '../ids.ts';
import type { Judged } from '../names/demand-table.ts';
import { honestOf, ladderOf, openAbove } from '../names/ladder.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { disagreementsIn, inHandOf, partChosen, workedInHand } from '../unit/in-hand.ts';
import type { Unit } from '../unit/unit.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { claimOf } from '../verdict/claim.ts';
import { type Standing, withMeanings } from '../verdict/if-kept.ts';
import { swapSetsWithNeeds } from '../why/needs-of-swaps.ts';
import { cautions as standing } from '../words/cautions.ts';
import { hasPhrase } from '../words/has-phrase.ts';
import { nameInFull } from '../words/name-in-full.ts';
import { ticketOf } from '../words/ticket.ts';
import { buildTicket } from './build-ticket.ts';
import { capital, chainSentence, jointSentences, list, partsWorked, workSentence } from './build-words.ts';
import { chainsAmong, factsOfBuild } from './chains-of.ts';
import { costOf, pricesIn } from './cost.ts';
import type { ChainPlan, JointPlan, PlanAnswer, PlannedWork, SlotPlan } from './plan.ts';
import { jointedUnit, plannedUnit, replanned } from './planned-unit.ts';
import { afterWorkSentence, slotMarkOf } from './slot-mark.ts';
import { warmPointsOf } from './warm-of.ts';
import { type BuildJoint, type BuildWork, jointsAmong, plannerFor, type WorkSet, workSets } from './work-sets.ts';

export interface PlanOptions {
  /** Parts the shop has and need not buy. */
  readonly stock?: readonly PartId[];
  /** Whose rates; the atlas's first where not said. */
  readonly rates?: RatesId | Rates;
  /** How many works one joint may take; three where not said. */
  readonly atMost?: number;
  /** The works that are meant, as a search found them, where several sets get as far. Without them, or where nobody could do just these, the best set. */
  readonly works?: readonly Pick<BuildWork, 'operation' | 'part' | 'joint'>[];
}

/**
 * The whole answer about a build on paper (J2, F4): every joint with its numbers, the works that make them go together, chains, what it costs and what it may
 * be called. Nothing falls out: a part that does not fit is still the part it is. Unfilled slots wait and are open in the names.
 * @throws when the sheet speaks of slots, features or parts the atlas does not have; the door refuses those
 */
export const planBuild = (atlas: CompiledAtlas, sheet: Sheet, options: PlanOptions = {}): PlanAnswer => {
  const contradicted = contradictionsIn(atlas, sheet);
  if (contradicted) return withMeanings(contradicted, atlas, sheet, (alone) => standingOfPlan(planBuild(atlas, alone, options)));
  const inHand = inHandOf(sheet);
  const odd = disagreementsIn(atlas, sheet);
  const strangers = new Set(odd.map(({ slot }) => slot));
  const before = workedInHand(atlas, sheet).filter(({ slot }) => !strangers.has(slot));
  const worked = new Set(before.map(({ slot }) => slot));
  const partIn = (slot: SlotId): Part | undefined => partChosen(atlas, sheet, slot);
  const joints = jointsAmong(atlas, partIn);
  const stacks = chainsAmong(atlas, partIn);
  const chainsWith = (facts: InHand): FitVerdict[] => stacks.map((chain) => judgeChain(chain, factsOfBuild(atlas, partIn, facts)).verdict);
  const planner = plannerFor(atlas.data.operations ?? [], options.atMost ?? 3);
  const [way, ...others] = withMeant(workSets(joints, inHand, planner, { chainsWith }), options.works) as [WorkSet, ...WorkSet[]];
  const works = inOrder(joints, way.works).map((work): PlannedWork => ({ ...work, sentence: workSentence(atlas, work) }));
  const jointPlans = joints.map((joint, i) => jointPlanOf(atlas, joint, way.fits[i] as Fit, { inHand, way, works, planner }));
  const chains = chainPlansOf(atlas, sheet, inHand, way.facts);
  const slots = atlas.slots.map(({ data: slot }) => slotPlanOf(atlas, sheet, slot.id, works, { strangers, worked, joints: jointPlans }));
  const verdict = worstOf([...jointPlans.map((each) => each.verdict), ...chains.map((each) => each.after.verdict)]);
  const stock = new Set(options.stock);
  const unit = plannedUnit(atlas, sheet, strangers);
  const named = namesOf(atlas, unit, sheet);
  const built = { slots, works, joints: jointPlans, verdict };
  const { ticket, ...names } = named;
  const needed = slots.flatMap(({ slot, part }) => (part === null || isPlate(atlas, slot) || stock.has(part) ? [] : [part]));
  return {
    kind: 'plan',
    sheet: sheet.id,
    edition: atlas.data.edition,
    verdict,
    sentence: sentenceOf(atlas, verdict, jointPlans, chains, works),
    slots,
    joints: jointPlans,
    waiting: atlas.joints.flatMap(({ data: joint }): JointId[] => (joints.some((each) => each.joint === joint) ? [] : [joint.id])),
    chains,
    works,
    otherWays: others
      .filter((other) => other.failing === way.failing && other.unknown === way.unknown && other.choosing === way.choosing)
      .map((other) => ({
        works: inOrder(joints, other.works).map((work) => ({ ...work, sentence: workSentence(atlas, work) })),
        hours: other.hours,
      })),
    cost: costOf(pricesIn(atlas, options.rates), way.hours, needed),
    ...names,
    ticket: buildTicket(
      atlas,
      ticket,
      names.names.filter(({ name }) => names.honest.includes(name.id)),
      built,
    ),
    findings: [
      ...odd.map((observation) => ({ observation: observation.id, sentence: strangerSentence(atlas, sheet, observation) })),
      ...before.map((observation) => ({
        observation: observation.id,
        sentence: workedSentence(atlas, sheet, observation),
      })),
    ],
    cautions: [
      ...new Set([
        ...standing,
        ...works.flatMap((work) => work.cautions),
        ...jointPlans.flatMap((each) => each.cautions),
        fitCautions.rules,
      ]),
    ],
  };
};

interface Done {
  readonly inHand: InHand;
  readonly way: WorkSet;
  readonly works: readonly PlannedWork[];
  readonly planner: ReturnType<typeof plannerFor>;
}

const jointPlanOf = (atlas: CompiledAtlas, joint: BuildJoint, after: Fit, { inHand, way, works, planner }: Done): JointPlan => {
  const own = planner(joint, inHand);
  const mine = works.flatMap((work, index) => (work.joint === joint.joint.id ? [index] : []));
  const doubtful = mine.some((index) => works[index]?.allowed !== 'holds');
  const verdict: FitVerdict =
    mine.length === 0
      ? after.verdict === 'will not fit' && own.verdict === 'not known'
        ? 'not known'
        : after.verdict
      : after.verdict === 'drops in' || after.verdict === 'after work'
        ? doubtful
          ? 'not known'
          : 'after work'
        : after.verdict;
  const [told, facts] = mine.length === 0 ? [after, way.facts] : [own.fit, inHand];
  return {
    joint: joint.joint.id,
    a: joint.a.id,
    b: joint.b.id,
    verdict,
    fit: own.fit,
    after,
    plans: own.plans,
    refused: own.refused,
    works: mine,
    warm: warmPointsOf(atlas, joint, way.facts),
    sentences: [
      ...jointSentences(
        atlas,
        told,
        verdict,
        partsWorked(
          mine.flatMap((index) => works[index] ?? []),
          [joint.a, joint.b],
        ),
        [joint.a, joint.b],
        facts,
      ),
      ...mine.map((index) => works[index]?.sentence ?? ''),
    ],
    cautions: verdict === 'drops in' ? [] : cautionsOfFit(after),
  };
};

/** The set of just the works that are meant stands first; the others stay as they were. */
const withMeant = (sets: readonly WorkSet[], meant: PlanOptions['works']): readonly WorkSet[] => {
  if (meant === undefined) return sets;
  const key = (works: NonNullable<PlanOptions['works']>): string =>
    works
      .map(({ operation, part, joint }) => `${operation} ${part} ${joint}`)
      .sort()
      .join('|');
  const wanted = key(meant);
  const found = sets.find(({ works }) => key(works) === wanted);
  return found === undefined ? sets : [found, ...sets.filter((each) => each !== found)];
};

/** Works stand in the order of the joints that ask for them. */
const inOrder = (joints: readonly BuildJoint[], works: readonly BuildWork[]): BuildWork[] =>
  joints.flatMap(({ joint }) => works.filter((work) => work.joint === joint.id));

const chainPlansOf = (atlas: CompiledAtlas, sheet: Sheet, inHand: InHand, made: InHand): ChainPlan[] => {
  const partIn = (slot: SlotId): Part | undefined => partChosen(atlas, sheet, slot);
  return chainsAmong(atlas, partIn).map((chain) => {
    const before = judgeChain(chain, factsOfBuild(atlas, partIn, inHand));
    const after = judgeChain(chain, factsOfBuild(atlas, partIn, made));
    return { chain: chain.id, name: chain.name, before, after, sentence: chainSentence(atlas, chain.name, chain.leaves, after) };
  });
};

const slotPlanOf = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  slot: SlotId,
  works: readonly PlannedWork[],
  {
    strangers,
    worked,
    joints,
  }: { readonly strangers: ReadonlySet<SlotId>; readonly worked: ReadonlySet<SlotId>; readonly joints: readonly JointPlan[] },
): SlotPlan => {
  const part = partChosen(atlas, sheet, slot);
  const machined = worked.has(slot) || works.some((work) => work.slot === slot);
  return {
    slot,
    part: part?.id ?? null,
    text: part === undefined ? null : partText(atlas, part, machined),
    machined,
    mark: slotMarkOf(
      slot,
      joints.filter(({ a, b }) => a === part?.id || b === part?.id),
      works,
    ),
    absent: sheet.absent.includes(slot),
    stranger: strangers.has(slot),
  };
};

export const partText = (atlas: CompiledAtlas, part: Part, machined: boolean): string => {
  const maker = part.maker === null ? null : (atlas.makers.get(part.maker)?.name ?? part.maker);
  const whose =
    maker === null
      ? `${part.name}, a pattern part that bears no maker’s name`
      : part.name.startsWith(maker)
        ? part.name
        : `${maker} ${part.name}`;
  return machined ? `${whose}, machined` : whose;
};

const workedSentence = (atlas: CompiledAtlas, sheet: Sheet, observation: Sheet['observations'][number]): string => {
  const part = partChosen(atlas, sheet, observation.slot);
  const feature = atlas.features.get(observation.feature);
  const seen = feature ? hasPhrase(feature, observation) : observation.feature;
  return `The part in hand has ${seen}, which is not as the ${part?.name ?? observation.slot} is made: it was machined before. It is judged by what was measured and keeps its name.`;
};

const strangerSentence = (atlas: CompiledAtlas, sheet: Sheet, observation: Sheet['observations'][number]): string => {
  const part = partChosen(atlas, sheet, observation.slot);
  const feature = atlas.features.get(observation.feature);
  const seen = feature ? hasPhrase(feature, observation) : observation.feature;
  return `The part in hand has ${seen}, which no ${part?.name ?? observation.slot} has by the atlas, worn or machined: it is another part. It is judged by what was measured and gives no name.`;
};

/** The ladder for the parts chosen, the claim, and the texts it gives (F4). */
const namesOf = (atlas: CompiledAtlas, unit: Unit, sheet: Sheet) => {
  const ladder = ladderOf(unit);
  const honest = honestOf(ladder);
  const open = openAbove(ladder, honest);
  const slotIds = (slots: readonly number[]) => slots.map((slot) => atlas.data.slots[slot]?.id as SlotId);
  const answers = new Map<NameId, NameAnswer>(
    ladder.all().map(({ rule, status, unsettled, lacks }) => [
      rule.name.id,
      {
        name: status === 'stands' ? nameInFull(unit, rule) : rule.name,
        status,
        unsettled: slotIds(unsettled),
        lacks: slotIds(lacks),
        conflicts: status === 'ruled out' && rule.name.rung === 'model with service parts replaced' ? againstName(unit, rule) : null,
        swaps: null,
      },
    ]),
  );
  const claim = claimOf(unit, answers);
  const claimed = claim?.name ? (answers.get(claim.name) ?? null) : null;
  const ruled = claimed?.status === 'ruled out' ? ladder.named(claimed.name.id) : undefined;
  const of = ({ rule }: Judged): NameAnswer => answers.get(rule.name.id) as NameAnswer;
  return {
    names: [...answers.values()],
    honest: honest.map(({ rule }) => rule.name.id),
    open: open.map(({ rule }) => rule.name.id),
    claim,
    swaps: ruled === undefined ? null : swapSetsWithNeeds(jointedUnit(atlas, unit), ruled.rule, replanned(unit)),
    ticket: ticketOf({
      unit,
      honest: honest.map(of),
      open: sheet.kind === 'planned' ? open.map(of) : [],
      claim,
      answers,
      findings: [],
      planned: true,
    }),
  };
};

/** Every chosen part the name does not allow, what is left out and the plate last (K1); on paper each is a reason by itself. */
const againstName = (unit: Unit, rule: NameRule): Conflicts => {
  const whose = fullNames(
    unit.atlas,
    rule.name.models.flatMap((model) => unit.atlas.models.get(model) ?? []),
  );
  const found = unit.slots.flatMap((slot): Conflict[] => {
    const demand = notBarred(slot.of, rule);
    if (demand === null || slot.live.some((group) => slot.groups[group]?.parts.some((part) => demand.has(part)))) return [];
    const { id, name } = slot.of.data;
    const chosen =
      slot.live.length === 1 && unit.sheet.chosen[id] !== undefined ? unit.atlas.parts.get(unit.sheet.chosen[id] as PartId) : undefined;
    return [
      {
        members: [{ kind: 'rule', name: rule.name.id, slot: id } as const],
        slots: [id],
        minutes: 0,
        stage: null,
        sentence: chosen ? `${capital(chosen.name)} is no ${name} listed for ${whose}.` : `The build holds no ${name} listed for ${whose}.`,
      },
    ];
  });
  const last = ({ slots: [slot] }: Conflict): boolean =>
    unit.slots.some(({ of, absent }) => of.data.id === slot && (absent || of.data.group === 'plate'));
  return {
    complete: true,
    found: [...found.filter((each) => !last(each)), ...found.filter(last)],
    independent: { count: found.length, exact: true },
  };
};

/** A build in short, for what one of two disagreeing entries would mean (O6). */
const standingOfPlan = (plan: PlanAnswer): Standing => {
  if (plan.kind !== 'plan') throw new Error('the entries that disagree were set aside');
  const honest = plan.names.filter(({ name }) => plan.honest.includes(name.id));
  return {
    honest: honest.map(({ name: { id, text, rung } }) => ({ name: id, text, rung })),
    claim: plan.claim,
    left: () => null,
    fit: plan.verdict,
  };
};

const sentenceOf = (
  atlas: CompiledAtlas,
  verdict: FitVerdict,
  joints: readonly JointPlan[],
  chains: readonly ChainPlan[],
  works: readonly PlannedWork[],
): string => {
  if (joints.length + chains.length === 0) return 'Nothing to judge yet: no joint has both its parts.';
  const names = [
    ...joints
      .filter((each) => each.verdict === verdict)
      .map(({ joint }) => atlas.joints.find((each) => each.data.id === joint)?.data.name ?? joint),
    ...chains.filter(({ after }) => after.verdict === verdict).map(({ name }) => name),
  ];
  switch (verdict) {
    case 'drops in':
      return 'Everything chosen so far drops in.';
    case 'after work':
      return afterWorkSentence(atlas, joints, chains, works);
    case 'will not fit':
      return `It cannot be built so: ${capital(list(names))} will not fit.`;
    case 'not known':
      return `It is not known whether it goes together: ${list(names)}.`;
  }
};
