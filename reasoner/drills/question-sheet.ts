import type { CompiledAtlas } from '../compile/compiled.ts';
import { drawFrom, seedOf } from './draw.ts';
import type { Drill, DrillKind, Judgement } from './drill.ts';
import { drillOf, judgeDrill } from './make-drill.ts';
import { type Scope, topicsOf } from './topics.ts';

/** What a sheet of questions was asked to be; the same again makes the same sheet of the same edition. */
export interface QuestionsAsked extends Scope {
  /** Of the sheet: what is drawn by chance is drawn from it. */
  readonly number: number;
  readonly count: number;
}

export interface QuestionSheet {
  readonly asked: QuestionsAsked;
  readonly edition: string;
  /** Each with the reasoner's judgement of a right answer. Fewer than asked where the scope gives no more. */
  readonly questions: readonly { readonly drill: Drill; readonly key: Judgement }[];
}

/**
 * Questions on paper with their answers. Kinds take turns; a topic comes again only when all have been asked.
 * @throws RangeError when the number of the sheet or the count is no whole number
 */
export const questionSheetOf = (atlas: CompiledAtlas, asked: QuestionsAsked): QuestionSheet => {
  if (!Number.isInteger(asked.count) || asked.count < 0)
    throw new RangeError(`a sheet has a whole number of questions; found ${asked.count}`);
  const draw = drawFrom(asked.number);
  const topics = topicsOf(atlas, asked);
  const kinds = [...new Set(topics.map(({ kind }) => kind))];
  const left = new Map<DrillKind, typeof topics>(kinds.map((kind) => [kind, draw.shuffled(topics.filter((topic) => topic.kind === kind))]));
  const questions: QuestionSheet['questions'][number][] = [];
  const said = new Set<string>();
  // Every topic may be asked a few times over, and then the scope has no more to give.
  for (let round = 0; round < 4 && questions.length < asked.count; round += 1) {
    const lists = new Map([...left].map(([kind, list]) => [kind, [...list]]));
    while (questions.length < asked.count && [...lists.values()].some(({ length }) => length > 0)) {
      for (const kind of kinds) {
        const topic = lists.get(kind)?.shift();
        if (topic === undefined || questions.length === asked.count) continue;
        atlas.pulse();
        const drill = drillOf(atlas, topic, seedOf(asked.number, round));
        const words = drill === null ? '' : JSON.stringify([drill.question, drill.shown, drill.choices.map(({ text }) => text)]);
        if (drill === null || said.has(words)) continue;
        said.add(words);
        questions.push({ drill, key: keyTo(atlas, drill) });
      }
    }
  }
  return { asked, edition: atlas.data.edition, questions };
};

/** What the reasoner says of a response it accepts. */
const keyTo = (atlas: CompiledAtlas, drill: Drill): Judgement => {
  const ids = drill.choices.map(({ id }) => id);
  const any = drill.respond.kind === 'order' ? ids : drill.respond.kind === 'one' ? ids.slice(0, 1) : ids.slice(0, drill.respond.count);
  const [right] = judgeDrill(atlas, drill, any).accepted;
  if (right === undefined) throw new Error(`the drill ${drill.topic} ${drill.seed} has no right answer`);
  return judgeDrill(atlas, drill, right);
};
