import type { LearningPutBack, Outcome, RecoveredLearning } from '../../db/index.ts';

/** What became of learners, courses and answers when an atlas was mended, a line each; none where nobody had learnt anything. */
export const sayLearning = (recovered: Outcome<RecoveredLearning>, back: Outcome<LearningPutBack>): readonly string[] => {
  if (!recovered.ok) return [`What was learnt could not be read; it may still be in the file set aside. ${recovered.trouble.sentence}`];
  if (!back.ok) return [`What was learnt could not be put back; it is still in the file set aside. ${back.trouble.sentence}`];
  const { courses, learners, answers, topics, nameless, withoutCourse, answersMissing, rescheduled } = back.value;
  const lines: string[] = [];
  if (learners > 0 || courses > 0)
    lines.push(
      `Learning: ${counted(learners, 'learner')}, ${counted(courses, 'course')}, ${counted(answers, 'answer')}, and when ${dueOf(topics)} again.`,
    );
  if (nameless.length > 0) lines.push(`The names of some learners could not be read; they are kept as ${nameless.join(', ')}.`);
  if (withoutCourse.length > 0)
    lines.push(`Their course could not be read, so these learners go on with the whole atlas: ${withoutCourse.join(', ')}.`);
  if (answersMissing > 0) lines.push(`At least ${counted(answersMissing, 'answer')} could not be read.`);
  if (rescheduled > 0) lines.push(`When ${dueOf(rescheduled)} again could not be read and was worked out again from the answers.`);
  if (!recovered.value.complete) lines.push('Some of what was learnt could not be read; it may still be in the file set aside.');
  return lines;
};

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;
const dueOf = (topics: number): string => (topics === 1 ? '1 topic is due' : `${topics} topics are due`);
