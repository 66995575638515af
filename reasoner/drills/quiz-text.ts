import type { CompiledAtlas } from '../compile/compiled.ts';
import type { Drill } from './drill.ts';
import type { Quiz } from './quiz.ts';

/** A letter for a choice: A, B … */
export const letterOf = (place: number): string => String.fromCharCode(65 + place);

/** The letters of a response, in its order; of several, in the order of the choices. */
export const lettersOf = (drill: Drill, response: readonly string[]): string => {
  const places = response.map((id) => drill.choices.findIndex((choice) => choice.id === id));
  return (drill.respond.kind === 'order' ? places : [...places].sort((a, b) => a - b)).map(letterOf).join(' ');
};

/** The quiz as Markdown: the questions, then on a page of its own the key with its reasons. What made it stands on both. */
export const quizText = (atlas: CompiledAtlas, quiz: Quiz): string => {
  const slotName = (id: string): string => atlas.data.slots.find((slot) => slot.id === id)?.name ?? id;
  const families = quiz.asked.families?.map((id) => atlas.families.get(id)?.name ?? id).join(', ') ?? 'all families';
  const made = `Seed ${quiz.asked.seed} · ${families} · ${quiz.asked.kinds?.join(', ') ?? 'all kinds'} · ${quiz.asked.count} questions · atlas ${quiz.edition}`;
  const questions = quiz.questions.flatMap(({ drill }, i) => [
    `## ${i + 1}. ${drill.question}`,
    '',
    ...drill.shown.map(({ slot, part, says }) => `- ${slotName(slot)}: ${part?.name ?? says.join('; ')}`),
    ...(drill.shown.length > 0 ? [''] : []),
    ...drill.choices.map(({ text }, place) => `${letterOf(place)}. ${text}  `),
    '',
    `Answer: ${drill.respond.kind === 'order' ? drill.choices.map(() => '___').join(' ') : drill.respond.kind === 'several' ? '___ ___' : '___'}`,
    '',
  ]);
  const key = quiz.questions.flatMap(({ drill, key: { accepted, sentences } }, i) => [
    `${i + 1}. **${accepted.map((each) => lettersOf(drill, each)).join(' or ')}** ${sentences.join(' ')}`,
  ]);
  return [`# Quiz`, '', made, '', ...questions, '---', '', '# Key', '', made, '', ...key, ''].join('\n');
};
