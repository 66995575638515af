import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { Drill } from './drill.ts';
import type { QuestionSheet } from './question-sheet.ts';

/** A letter for a choice: A, B … */
export const letterOf = (place: number): string => String.fromCharCode(65 + place);

/** The letters of a response, in its order; of several, in the order of the choices. */
export const lettersOf = (drill: Drill, response: readonly string[]): string => {
  const places = response.map((id) => drill.choices.findIndex((choice) => choice.id === id));
  return (drill.respond.kind === 'order' ? places : [...places].sort((a, b) => a - b)).map(letterOf).join(' ');
};

/** The sheet as Markdown: the questions, then on a page of its own the answers with their reasons. What made it stands on both. */
export const questionSheetText = (atlas: CompiledAtlas, sheet: QuestionSheet): string => {
  const slotName = (id: string): string => slotNameOf(atlas, id);
  const families = sheet.asked.families?.map((id) => atlas.families.get(id)?.name ?? id).join(', ') ?? 'all families';
  const made = `Sheet ${sheet.asked.number} · ${families} · ${sheet.asked.kinds?.join(', ') ?? 'all kinds'} · ${sheet.asked.count} questions${sheet.asked.level === 'by eye' ? ' by eye' : ''} · atlas ${sheet.edition}`;
  const questions = sheet.questions.flatMap(({ drill }, i) => [
    `## ${i + 1}. ${drill.question}`,
    '',
    ...drill.shown.map(({ slot, part, says }) => `- ${slotName(slot)}: ${part?.name ?? says.join('; ')}`),
    ...(drill.shown.length > 0 ? [''] : []),
    ...drill.choices.map(({ text }, place) => `${letterOf(place)}. ${text}  `),
    '',
    `Answer: ${drill.respond.kind === 'order' ? drill.choices.map(() => '___').join(' ') : drill.respond.kind === 'several' ? '___ ___' : '___'}`,
    '',
  ]);
  const key = sheet.questions.flatMap(({ drill, key: { accepted, sentences } }, i) => [
    `${i + 1}. **${accepted.map((each) => lettersOf(drill, each)).join(' or ')}** ${sentences.join(' ')}`,
  ]);
  return [`# Questions`, '', made, '', ...questions, '---', '', '# Answers', '', made, '', ...key, ''].join('\n');
};
