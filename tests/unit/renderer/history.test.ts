import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beginning, changed, type History, redone, undone } from '../../../renderer/bench/history.ts';

describe('undo and redo over the whole sheet', () => {
  test('[O1] a word typed in one field is one step back; the next field is another', () => {
    let history = beginning('');
    for (const text of ['P', 'Pe', 'Pet']) history = changed(history, text, 'claim');
    history = changed(history, 'Pet!', 'title');
    expect(undone(history).present).toBe('Pet');
    expect(undone(undone(history)).present).toBe('');
  });

  test('[O1] after an undo, typing in the same field begins a new step and drops what was ahead', () => {
    let history = changed(changed(beginning('a'), 'b', 'title'), 'c', 'claim');
    history = changed(undone(history), 'd', 'title');
    expect(history.future).toEqual([]);
    expect(undone(history).present).toBe('b');
  });

  test('[O1] any run of edits, undone wholly, is the beginning, and redone wholly, the end', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer(), fc.constantFrom(null, 'title', 'claim')), { maxLength: 60 }), (edits) => {
        let history: History<number> = beginning(0);
        for (const [value, typing] of edits) history = changed(history, value, typing);
        const end = history.present;
        const steps = history.past.length;
        for (let step = 0; step < steps + 2; step += 1) history = undone(history);
        expect(history.present).toBe(0);
        for (let step = 0; step < steps + 2; step += 1) history = redone(history);
        expect(history.present).toBe(end);
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });
});
