import type { Answer, BriefVerdict, Contradicted, NameAnswer, Verdict } from '../answer/verdict.ts';
import { compatible } from '../atlas/agree.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { NameId, SlotId } from '../ids.ts';
import type { Judged } from '../names/demand-table.ts';
import { findRule, honestOf, ladderOf, openAbove } from '../names/ladder.ts';
import { judge } from '../names/status.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { type Unit, unitOf } from '../unit/unit.ts';
import { type Effort, usualEffort } from '../why/conflicts-for.ts';
import { conflictsOf, unitConflicts } from '../why/explain.ts';
import { swapSetsWithNeeds } from '../why/needs-of-swaps.ts';
import { cautions } from '../words/cautions.ts';
import { hasPhrase } from '../words/has-phrase.ts';
import { nameInFull } from '../words/name-in-full.ts';
import { ticketOf } from '../words/ticket.ts';
import { claimedIn, claimOf } from './claim.ts';
import { findingsOf } from './findings.ts';
import { standingOf, withMeanings } from './if-kept.ts';
import { slotAnswers, slotCounts } from './slot-answers.ts';

export interface AnswerOptions {
  /**
   * Whose conflicts and swap sets to enumerate: of the claimed name alone (the default), of every model and pattern core that is
   * ruled out (the weakest rung that says it is that model), or of none. Any other name is explained on demand by `explain`.
   */
  readonly explain?: 'models' | 'claim' | 'none';
  /** How much is spent on the conflicts of one name, or of the unit with itself; `complete` says whether there are no others. */
  readonly effort?: Effort;
}

/**
 * The whole answer about a found unit (SPEC): which names the parts can carry, with the proof.
 * @throws when the sheet speaks of slots or features the atlas does not have; the door refuses those
 */
export const answer = (atlas: CompiledAtlas, sheet: Sheet, options: AnswerOptions = {}): Answer =>
  answerInBrief(atlas, sheet, options).whole();

/** What is said at once, and the whole for whoever asks on: over a large atlas most of it is lists of what is ruled out and of what is left. */
export type InBrief = Brief<Contradicted, Contradicted> | Brief<BriefVerdict, Verdict>;

interface Brief<Told extends { readonly kind: string }, Whole> {
  readonly kind: Told['kind'];
  readonly brief: Told;
  /** Made when it is first asked for. */
  readonly whole: () => Whole;
}

/** The same answer with counts in place of its long lists. @throws as `answer` */
export const answerInBrief = (atlas: CompiledAtlas, sheet: Sheet, options: AnswerOptions = {}): InBrief => {
  const contradicted = contradictionsIn(atlas, sheet);
  if (contradicted) {
    const told = withMeanings(contradicted, atlas, sheet, (alone) => standingOf(atlas, alone));
    return { kind: 'contradiction', brief: told, whole: () => told };
  }
  const { explain: whose = 'claim', effort = usualEffort } = options;
  const unit = unitOf(atlas, sheet);
  const ladder = ladderOf(unit);
  const honest = honestOf(ladder);
  const open = openAbove(ladder, honest);
  const claimed = claimedIn(ladder, unit);
  const explained = whose === 'claim' ? claimed : whose === 'none' ? [] : ladder.all().filter(saysWhichModel);
  const answers = new Map<NameId, NameAnswer>();
  for (const each of new Set([...honest, ...open, ...claimed, ...explained]))
    answers.set(each.rule.name.id, nameAnswer(unit, each, explained.includes(each) ? effort : null));
  const own = unitConflicts(unit, effort);
  const findings = findingsOf(unit, own);
  const claim = claimOf(unit, answers);
  const of = ({ rule }: Judged): NameAnswer => answers.get(rule.name.id) as NameAnswer;
  const said = {
    kind: 'verdict',
    sheet: sheet.id,
    edition: atlas.data.edition,
    findings,
    unit: own,
    namesComplete: ladder.complete,
    honest: honest.map(({ rule }) => rule.name.id),
    open: open.map(({ rule }) => rule.name.id),
    claim,
    ticket: ticketOf({ unit, honest: honest.map(of), open: open.map(of), claim, answers, findings }),
    cautions,
  } as const;
  const stands = ladder.possible.filter(({ status }) => status === 'stands').length;
  const counts = { stands, open: ladder.possible.length - stands, 'ruled out': ladder.count - ladder.possible.length };
  let whole: Verdict | undefined;
  return {
    kind: 'verdict',
    brief: { ...said, counts, spoken: [...answers.values()], slots: slotCounts(unit) },
    whole: () => {
      whole ??= {
        ...said,
        slots: slotAnswers(unit),
        names: ladder.all().map((judged) => answers.get(judged.rule.name.id) ?? judged.bare ?? nameAnswer(unit, judged, null)),
      };
      return whole;
    },
  };
};

/** The weakest name that says which model a unit is, or of which it is a pattern. */
const saysWhichModel = ({ rule: { name } }: Judged): boolean =>
  name.rung === 'model with service parts replaced' || name.rung === 'pattern core';

/**
 * One name with its conflicts and swap sets, whatever its rung.
 * @throws when the sheet is contradictory, or no name has this id
 */
export const explain = (atlas: CompiledAtlas, sheet: Sheet, name: NameId, effort: Effort = usualEffort): NameAnswer => {
  if (contradictionsIn(atlas, sheet)) throw new Error('a contradictory sheet has no verdict to explain');
  const unit = unitOf(atlas, sheet);
  const rule = findRule(unit, name);
  if (!rule) throw new Error(`no name has the id ${name}`);
  return nameAnswer(unit, judge(unit, rule), effort);
};

const nameAnswer = (unit: Unit, { rule, status, unsettled, lacks }: Judged, effort: Effort | null): NameAnswer => {
  const wanted = effort !== null && status === 'ruled out';
  return {
    name: status === 'stands' ? nameInFull(unit, rule) : rule.name,
    status,
    unsettled: slotIds(unit, unsettled),
    lacks: slotIds(unit, lacks),
    conflicts: wanted ? conflictsOf(unit, rule, effort) : null,
    swaps: wanted ? swapSetsWithNeeds(unit, rule) : null,
  };
};

const slotIds = (unit: Unit, slots: readonly number[]): SlotId[] => slots.map((slot) => (unit.atlas.slots[slot] as CompiledSlot).data.id);

/** O6: pairs of observations of one feature, neither told, that no part could bear both of; without what each would mean. */
export const contradictionsIn = (atlas: CompiledAtlas, sheet: Sheet): Contradicted | null => {
  const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
  const contradictions = seen.flatMap((one, i) =>
    seen
      .slice(i + 1)
      .flatMap((other) => (one.feature === other.feature && !compatible(one, other) ? [contradiction(atlas, one, other)] : [])),
  );
  return contradictions.length === 0 ? null : { kind: 'contradiction', sheet: sheet.id, edition: atlas.data.edition, contradictions };
};

const contradiction = (atlas: CompiledAtlas, one: Observation, other: Observation): Contradicted['contradictions'][number] => {
  const feature = atlas.features.get(one.feature) as Feature;
  const slot = slotNameOf(atlas, one.slot);
  return {
    observations: [one.id, other.id],
    meanings: null,
    sentence: `The ${slot} cannot have both ${hasPhrase(feature, one)} and ${hasPhrase(feature, other)}: look again and keep one.`,
  };
};
