import {
  type Answer,
  type Atlas,
  answer,
  asId,
  blankSheet,
  type CaseFacts,
  type CompiledAtlas,
  type Conflicts,
  type ObservationId,
  type Report,
  type ReportReason,
  reportOf,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';

/** A sheet, its answer, and what was known of the case: all a report may speak of. */
export interface Ground {
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  readonly answer: Answer;
  readonly facts?: CaseFacts;
  readonly on: string;
}

export const groundOf = (atlas: CompiledAtlas, sheet: Sheet, facts?: CaseFacts): Ground => ({
  atlas,
  sheet,
  answer: answer(atlas, sheet),
  ...(facts === undefined ? {} : { facts }),
  on: '2026-11-25',
});

/** With the story, which has to hold to the proof too where it is asked for. */
export const reportOn = ({ atlas, sheet, answer: of, facts, on }: Ground, story = true): Report =>
  reportOf({ atlas, sheet, answer: of, story, ...(facts === undefined ? {} : { facts }), making: { on, invented: true } });

/**
 * The member a reason leads to, as the words it holds. Throws where it leads nowhere: then the line says something that is not in
 * the proof. Written apart from the report, from the answer's own types.
 */
export const memberWords = (ground: Ground, reason: ReportReason): readonly string[] => {
  const { sheet, answer: of, facts, atlas: compiled } = ground;
  const { data: atlas } = compiled;
  const observed = (id: ObservationId): readonly string[] => {
    const one = held(
      sheet.observations.find((each) => each.id === id),
      `observation ${id}`,
    );
    const feature = held(
      atlas.features.find((each) => each.id === one.feature),
      `feature ${one.feature}`,
    );
    const options = feature.options?.map(({ name }) => name) ?? [];
    // A measure is shown with ± 2u (O2).
    const twice = one.sure.kind === 'measured' ? 2 * one.sure.u : null;
    const sure = twice === null ? '' : `±${twice < 0.01 ? Number(twice.toPrecision(2)) : Math.round(twice * 1000) / 1000}`;
    return [JSON.stringify(one), feature.name, feature.unit ?? '', slotName(atlas, one.slot), sure, ...options];
  };
  switch (reason.kind) {
    case 'observation':
      return observed(reason.observation);
    case 'absent':
      if (!sheet.absent.includes(reason.slot)) throw new Error(`${reason.slot} is not absent`);
      return [slotName(atlas, reason.slot)];
    case 'joint':
      return [
        held(
          atlas.joints.find(({ id }) => id === reason.joint),
          `joint ${reason.joint}`,
        ).name,
      ];
    case 'rule':
      named(verdictOf(of), reason.name);
      return [slotName(atlas, reason.slot)];
    case 'name': {
      const one = named(verdictOf(of), reason.name);
      return [one.name.text, one.status, ...one.unsettled.map((slot) => slotName(atlas, slot))];
    }
    case 'finding':
      return [held(verdictOf(of).findings[reason.index], `finding ${reason.index}`).sentence];
    case 'caution':
      // A contradictory sheet has no verdict, and the cautions stand all the same (F5).
      return [held(of.kind === 'verdict' ? of.cautions[reason.index] : standing(ground)[reason.index], `caution ${reason.index}`)];
    case 'conflict': {
      const conflict = held(conflictsOf(verdictOf(of), reason.of)?.found[reason.index], `conflict ${reason.index} of the ${reason.of}`);
      return [conflict.sentence];
    }
    case 'claim': {
      const claim = held(verdictOf(of).claim, 'claim');
      return [claim.text, ...claim.sentences];
    }
    case 'promise':
      return [
        held(verdictOf(of).claim?.reading.tokens[reason.token]?.promises[reason.index], `promise ${reason.index} of token ${reason.token}`)
          .sentence,
      ];
    case 'contradiction':
      if (of.kind !== 'contradiction') throw new Error('there is no contradiction');
      return [held(of.contradictions[reason.index], `contradiction ${reason.index}`).sentence];
    case 'if kept': {
      if (of.kind !== 'contradiction') throw new Error('there is no contradiction');
      const meanings = held(of.contradictions[reason.index], `contradiction ${reason.index}`).meanings ?? [];
      return [
        held(
          meanings.find(({ observation }) => observation === reason.observation),
          `what ${reason.observation} would mean`,
        ).sentence,
      ];
    }
    case 'ticket':
      return [held(verdictOf(of).ticket[reason.text][reason.index], `clause ${reason.index}`).text];
    case 'slot':
      held(
        verdictOf(of).slots.find(({ slot }) => slot === reason.slot),
        `slot ${reason.slot}`,
      );
      return [slotName(atlas, reason.slot)];
    case 'tally':
      return tallyWords(verdictOf(of));
    case 'check': {
      named(verdictOf(of), reason.name);
      const feature = held(
        atlas.features.find(({ id, slot }) => id === reason.feature && slot === reason.slot),
        `feature ${reason.feature} of ${reason.slot}`,
      );
      const stage = held(
        atlas.stages.find(({ id }) => id === feature.stage),
        `stage ${feature.stage}`,
      );
      // What the atlas says of the feature, part by part: the outcomes a check may have.
      const facts = atlas.parts.filter(({ slot }) => slot === reason.slot).flatMap((part) => part.facts[reason.feature] ?? []);
      const limits = facts.flatMap((fact) =>
        fact.kind === 'measure' ? [rounded(fact.nominal + fact.lower), rounded(fact.nominal + fact.upper)] : [JSON.stringify(fact)],
      );
      const options = feature.options?.map(({ name }) => name) ?? [];
      return [
        slotName(atlas, reason.slot),
        feature.name,
        stage.name,
        String(feature.minutes),
        feature.instrument ?? '',
        ...limits,
        ...options,
      ];
    }
    case 'edition':
      return [of.edition];
    case 'sheet': {
      const field = sheet[reason.field];
      if (reason.field === 'claimedMaker')
        return [
          held(
            atlas.makers.find(({ id }) => id === field),
            `maker ${field}`,
          ).name,
        ];
      return [field ?? ''];
    }
    case 'unseen': {
      const one = held(sheet.unseen?.[reason.index], `unseen ${reason.index}`);
      const feature = held(
        atlas.features.find(({ id }) => id === one.feature),
        `feature ${one.feature}`,
      );
      return [slotName(atlas, one.slot), feature.name, one.why];
    }
    case 'case': {
      const field = held(facts?.[reason.field], `case field ${reason.field}`);
      return [typeof field === 'string' ? field : JSON.stringify(field), ...daysIn(String(field))];
    }
    case 'photograph': {
      const one = held(facts?.photographs?.[reason.index], `photograph ${reason.index}`);
      return [one.caption, String(reason.index + 1), ...(one.slot === null ? [] : [slotName(atlas, one.slot)])];
    }
    case 'making':
      return [ground.on, ...daysIn(ground.on), 'invented data'];
  }
};

const held = <T>(found: T | null | undefined, what: string): T => {
  if (found === null || found === undefined) throw new Error(`the proof has no ${what}`);
  return found;
};

const verdictOf = (of: Answer): Verdict => {
  if (of.kind !== 'verdict') throw new Error('nothing was judged');
  return of;
};

const named = (verdict: Verdict, id: string) =>
  held(
    verdict.names.find(({ name }) => name.id === id),
    `name ${id}`,
  );

const conflictsOf = (verdict: Verdict, of: 'claim' | 'unit'): Conflicts | null =>
  of === 'unit' ? verdict.unit : named(verdict, held(verdict.claim?.name, 'claimed name')).conflicts;

/** The cautions as they stand with any verdict: those of the same unit with nothing entered. */
const standing = ({ atlas, sheet }: Ground): readonly string[] => verdictOf(answer(atlas, { ...sheet, observations: [] })).cautions;

const slotName = (atlas: Atlas, id: string): string =>
  held(
    atlas.slots.find((slot) => slot.id === id),
    `slot ${id}`,
  ).name;

const rounded = (value: number): string => String(Math.round(value * 1000) / 1000);

/** Models by what is left of them, counted over the answer's names in another way: model by model. */
export const tallyWords = (verdict: Verdict): string[] => {
  const models = verdict.names.filter(({ name }) => name.rung === 'model').map(({ name }) => held(name.models[0], 'model'));
  const of = (model: string) =>
    verdict.names.filter(({ name }) => name.models.length === 1 && name.models[0] === model && /^(model|options|service):/.test(name.id));
  const stands = models.filter((model) => of(model).some(({ status }) => status === 'stands')).length;
  const out = models.filter((model) => of(model).every(({ status }) => status === 'ruled out')).length;
  return [String(models.length), String(stands), String(out), String(models.length - stands - out)];
};

const daysIn = (iso: string): string[] => {
  const day = new Date(`${iso.slice(0, 10)}T00:00:00Z`);
  return Number.isNaN(day.getTime())
    ? []
    : [day.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' })];
};

export const emptySheet = blankSheet(asId('empty'));
