import { describe, expect, test } from 'vitest';
import type { Backup, Outcome, Trouble } from '../../../db/index.ts';
import { backupSchedule } from '../../../electron/desk/backup-schedule.ts';

const start = Date.parse('2026-03-04T12:00:00.000Z');
const minute = 60_000;

/** A shelf whose last backup is of so many minutes before the start, and whose looks are counted. */
const shelf = (last: number | null, outcome: Outcome<Backup | null> = { ok: true, value: null }) => {
  const looks: number[] = [];
  const troubles: Trouble[] = [];
  let at = start;
  const schedule = backupSchedule(
    {
      lastMade: async () => ({ ok: true, value: last === null ? null : new Date(start - last * minute).toISOString() }),
      makeIfChanged: async () => {
        looks.push((at - start) / minute);
        return outcome;
      },
    },
    () => new Date(at),
    (trouble) => troubles.push(trouble),
  );
  const look = (minutes: number): Promise<void> => {
    at = start + minutes * minute;
    return schedule.look();
  };
  return { looks, troubles, look };
};

describe('[P5] an hourly backup', () => {
  test.each([
    ['where there is none yet, at the first look', null, [0, 60, 120]],
    ['an hour after the last, whoever made it', 20, [40, 100]],
    ['where the last is older, at the first look', 90, [0, 60, 120]],
    ['where the last is of a time to come, at the first look', -30, [0, 60, 120]],
    ['an hour after the last to the minute', 60, [0, 60, 120]],
  ])('[P5] is due %s', async (_, last, due) => {
    const { looks, look } = shelf(last);
    for (let n = 0; n <= 150; n += 1) await look(n);
    expect(looks).toEqual(due);
  });

  test('[P5] a clock that is set back does not end them', async () => {
    const { looks, look } = shelf(90);
    for (const n of [0, 30, -600, -599, -540, -480]) await look(n);
    expect(looks).toEqual([0, -600, -540, -480]);
  });

  test('[P5] closing gives it up: nobody is told of a failure, and no other is begun', async () => {
    let closing = false;
    const troubles: Trouble[] = [];
    let looks = 0;
    const schedule = backupSchedule(
      {
        lastMade: async () => ({ ok: true, value: null }),
        makeIfChanged: async (_, stopped) => {
          looks += 1;
          closing = true;
          expect(stopped?.()).toBe(true);
          return { ok: false, trouble: { code: 'backup-failed', place: null, sentence: 'It was given up.' } };
        },
      },
      () => new Date(start),
      (trouble) => troubles.push(trouble),
      () => closing,
    );
    await schedule.look();
    await schedule.look();
    expect([looks, troubles]).toEqual([1, []]);
  });

  test('[P5] while one is being made there is no second; one that fails is told, and is tried again an hour later', async () => {
    const sentence = 'There is no room left.';
    const { looks, look, troubles } = shelf(null, { ok: false, trouble: { code: 'backup-failed', place: null, sentence } });
    await Promise.all([look(0), look(0), look(0)]);
    expect(looks).toEqual([0]);
    for (let n = 1; n <= 60; n += 1) await look(n);
    expect(looks).toEqual([0, 60]);
    expect(troubles.map((one) => one.sentence)).toEqual([sentence, sentence]);
  });
});
