import { describe, expect, test } from 'vitest';
import type { FitRule } from '../../../reasoner/index.ts';
import { judgeRule, readThread, type Thread, threadsMeet } from '../../../reasoner/index.ts';
import { choice, f } from './helpers.ts';

const thread = (designation: string): Thread => {
  const read = readThread(designation);
  if (!read.ok) throw new Error(read.sentence);
  return read.value;
};

describe('reading a designation', () => {
  test.each([
    ['M8x1', 'M8×1', 'right'],
    ['m6x0.75', 'M6×0.75', 'right'],
    ['M8', 'M8×1.25', 'right'],
    ['M 10 × 1', 'M10×1', 'right'],
    ['M8×1-LH', 'M8×1', 'left'],
    ['M8x1 LH', 'M8×1', 'left'],
    ['M8x1.25-5g6g', 'M8×1.25', 'right'],
    ['M4,5x0,5', 'M4.5×0.5', 'right'],
    ['G1/8', 'G 1/8', 'right'],
    ['G 1 1/4 A', 'G 1 1/4', 'right'],
    ['NPT 1/8', '1/8-27 NPT', 'right'],
    ['1/8-27 npt', '1/8-27 NPT', 'right'],
    ['7/16-20 UNF', '7/16-20 UNF', 'right'],
    ['7/16 UNF', '7/16-20 UNF', 'right'],
    ['#10-32 UNF', '#10-32 UNF', 'right'],
    ['1/2-20 UNF-2A LH', '1/2-20 UNF', 'left'],
  ])('[F1] %s is %s', (designation, text, hand) => {
    expect(thread(designation)).toMatchObject({ text, hand });
  });

  test.each([
    ['M4.7', /no coarse pitch/],
    ['M8x9', /leaves no core/],
    ['M8x0', /leaves no core/],
    ['G 5', /not in the ISO 228 table/],
    ['NPT 1/3', /not in the table/],
    ['1/8-28 NPT', /has 27 threads per inch; found 28/],
    ['7/16-18 UNF', /has 20 threads per inch; found 18/],
    ['11/16 UNF', /must be stated/],
    ['stud, fine', /expected one such as M8x1/],
    ['', /no thread designation/],
  ])('[F1] %s is refused with what was expected', (designation, sentence) => {
    const read = readThread(designation);
    expect(!read.ok && read.sentence).toMatch(sentence);
  });
});

describe('two threads', () => {
  test('[F1] a thread goes with itself however it is written, and with no other hand', () => {
    expect(threadsMeet(thread('M8'), thread('m8x1.25'))).toEqual({ differs: [], nearMiss: false });
    expect(threadsMeet(thread('M8'), thread('M8-LH'))).toEqual({ differs: ['hand'], nearMiss: true });
  });

  test('[F1] the same size with another pitch may be started, and is a near miss; a size nobody can start is not', () => {
    expect(threadsMeet(thread('M8x1'), thread('M8'))).toEqual({ differs: ['pitch'], nearMiss: true });
    expect(threadsMeet(thread('M6x0.75'), thread('M7x0.75'))).toEqual({ differs: ['size'], nearMiss: false });
  });
});

describe('the thread rule', () => {
  const rule: FitRule = {
    kind: 'thread',
    external: { size: f('stub'), hand: f('stub hand') },
    internal: { size: f('nut'), hand: f('nut hand') },
  };
  const hands = { 'stub hand': choice('left'), 'nut hand': choice('left') };
  const judge = (facts: Record<string, ReturnType<typeof choice>>) => judgeRule(rule, (feature) => facts[feature]);

  test('[F1] different spellings of one thread drop in', () => {
    expect(judge({ ...hands, stub: choice('M8'), nut: choice('m8x1.25') }).verdict).toBe('drops in');
  });

  test('[F1] the hand is judged from its own feature, whether or not the designation repeats it', () => {
    expect(judge({ ...hands, stub: choice('M8x1-LH'), nut: choice('M8x1') }).verdict).toBe('drops in');
  });

  test('[F1] a near miss is named', () => {
    const found = judge({ ...hands, stub: choice('M8x1'), nut: choice('M8') });
    expect(found.verdict).toBe('will not fit');
    expect(found.points[0]?.thread).toEqual({ differs: ['pitch'], nearMiss: true });
  });

  test('[F1] a designation nobody can read is the same only as itself', () => {
    expect(judge({ ...hands, stub: choice('shop thread 3'), nut: choice('shop thread 3') }).verdict).toBe('drops in');
    expect(judge({ ...hands, stub: choice('shop thread 3'), nut: choice('M8x1') })).toMatchObject({
      verdict: 'will not fit',
      points: [{ thread: { differs: [], nearMiss: false } }, {}],
    });
  });
});
