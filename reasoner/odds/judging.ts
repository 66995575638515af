import type { Status } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { familyPartsNamed, namesOfModel, readFormedNameId, ruleNamed } from '../compile/name-ids.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { ModelId } from '../ids.ts';
import { ladderOf } from '../names/ladder.ts';
import { judgeFor } from '../names/status.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { type Unit, unitOf } from '../unit/unit.ts';
import type { Target } from './targets.ts';

/** What the verdict says of the names the odds speak of, asked as they come up. */
export interface Judging {
  readonly unit: Unit;
  readonly status: (rule: NameRule) => Status;
  /** Whether the verdict rules the target out: one of the names it is met with is. A list of parts never is. */
  readonly rulesOut: (target: Target) => boolean;
  /** Whether a name met stands: what the odds put first need not. A list of parts always does. */
  readonly stands: (target: Target) => boolean;
  /** The target in the verdict's own words: of a core, with the housings it says stand with it. */
  readonly textOf: (target: Target) => string;
}

export const judging = (atlas: CompiledAtlas, sheet: Sheet): Judging => {
  const unit = unitOf(atlas, sheet);
  const judge = judgeFor(unit);
  const status = (rule: NameRule): Status => {
    atlas.pulse();
    return judge(rule).status;
  };
  let spoken: ReadonlyMap<string, string> | null = null;
  const wordsOf = (target: Target): ReadonlyMap<string, string> => {
    // Names said with a unit's own particulars are formed by the whole ladder, which is asked only where one of them may be said.
    if (!target.rules.some((rule) => (rule.name.rung === 'core' || rule.name.rung === 'all parts') && status(rule) === 'stands'))
      return new Map();
    spoken ??= standingTexts(unit);
    return spoken;
  };
  /** A model is called by its full name, but where the verdict rules just that out: then by the best of its names that is left. */
  const modelText = ({ rules, text }: Target): string => {
    const left = rules.map(({ name }) => rungsOfModel(atlas, name.models[0] as ModelId).find((rule) => status(rule) !== 'ruled out'));
    return left.every((rule) => rule === undefined || rule.name.rung === 'model')
      ? text
      : left.flatMap((rule) => rule?.name.text ?? []).join(', or ');
  };
  return {
    unit,
    status,
    rulesOut: ({ rules }) => rules.some((rule) => status(rule) === 'ruled out'),
    stands: ({ rules }) =>
      rules.every((rule) => status(rule) === 'stands' && noneOfFamily(atlas, rule).every((each) => status(each) === 'ruled out')),
    textOf: (target) => {
      const [first] = target.rules;
      if (first?.name.rung === 'model with service parts replaced') return modelText(target);
      return (first && wordsOf(target).get(first.name.id)) ?? target.text;
    },
  };
};

/** What must be ruled out before parts of a family are said to be of no one model (N4). */
const noneOfFamily = (atlas: CompiledAtlas, { name }: NameRule): readonly NameRule[] => familyPartsNamed(atlas, name.id)?.noneOf ?? [];

/** The names that say a unit is this model, the fullest first. */
const rungsOfModel = (atlas: CompiledAtlas, model: ModelId): NameRule[] => namesOfModel(model).flatMap((id) => ruleNamed(atlas, id) ?? []);

/** By core, and by any other name a unit adds words to: the best name that stands. */
const standingTexts = (unit: Unit): ReadonlyMap<string, string> => {
  const texts = new Map<string, string>();
  for (const { rule, status } of ladderOf(unit).possible) {
    const { id, rung, text, housings } = rule.name;
    if (status !== 'stands' || (rung !== 'hybrid' && rung !== 'core' && rung !== 'all parts')) continue;
    // A core with both housings unidentified says no more than the target does.
    if (rung === 'core' && housings.every(({ origin }) => origin.kind === 'unidentified')) continue;
    const of = rung === 'all parts' ? id : readFormedNameId(id).core;
    if (!texts.has(of)) texts.set(of, text);
  }
  return texts;
};
