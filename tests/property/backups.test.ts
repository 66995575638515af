import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BackupReason } from '../../db/answers.ts';
import { backupName } from '../../db/backups/names.ts';
import { type Dated, thoseToDrop } from '../../db/backups/those-to-drop.ts';

const now = new Date('2026-11-20T15:30:00.000Z');
const hour = 3_600_000;
const day = 24 * hour;

const made = (hoursAgo: number, reason: BackupReason = 'hourly', bytes = 100, sound = true): Dated => {
  const at = new Date(now.getTime() - hoursAgo * hour);
  return { name: backupName(at, reason), at: at.toISOString(), reason, bytes, sound };
};
const reasons = ['hourly', 'asked', 'before-migration', 'before-pack', 'before-mend', 'before-restore'] as const;
const age = ({ at }: Dated): number => now.getTime() - Date.parse(at);

const someBackups: fc.Arbitrary<readonly Dated[]> = fc
  .uniqueArray(
    fc.record({
      minutes: fc.oneof(fc.integer({ min: -600, max: 60 * 60 }), fc.integer({ min: 0, max: 60 * 24 * 500 })),
      reason: fc.constantFrom(...reasons, 'hourly' as const, 'hourly' as const),
      bytes: fc.integer({ min: 0, max: 1000 }),
      sound: fc.boolean(),
    }),
    { selector: ({ minutes }) => minutes, maxLength: 60 },
  )
  .map((all) => all.map(({ minutes, reason, bytes, sound }) => made(minutes / 60, reason, bytes, sound)));

const left = (all: readonly Dated[], atMost: number): readonly Dated[] => {
  const gone = new Set(thoseToDrop(all, now, atMost));
  return all.filter(({ name }) => !gone.has(name));
};
/** The newest sound one of those the clock has come to, else of all. */
const newestSound = (all: readonly Dated[]): Dated | undefined => {
  const sound = all.filter((one) => one.sound).sort((a, b) => age(a) - age(b));
  return sound.find((one) => age(one) >= 0) ?? sound[0];
};
const guarded = (one: Dated): boolean => (one.reason === 'before-migration' || one.reason === 'before-pack') && age(one) <= 30 * day;
const bytesOf = (all: readonly Dated[]): number => all.reduce((sum, { bytes }) => sum + bytes, 0);
const room = 1e9;

describe('[P5] of any backups', () => {
  test('[P5] the newest sound one is kept, whatever the room', () => {
    fc.assert(
      fc.property(someBackups, fc.nat(3000), (all, atMost) => {
        const newest = newestSound(all);
        if (newest !== undefined) expect(left(all, atMost)).toContain(newest);
      }),
    );
  });

  test('[P5] what is kept has room, or is the newest sound one alone; nothing goes for room that is not needed', () => {
    fc.assert(
      fc.property(someBackups, fc.nat(8000), (all, atMost) => {
        const kept = left(all, atMost);
        if (bytesOf(kept) > atMost) expect(kept).toEqual([newestSound(all)]);
        // Had the last that went stayed, there would have been too little.
        const byAge = left(all, room);
        const wentForRoom = byAge.filter((one) => !kept.includes(one));
        for (const one of wentForRoom.filter((gone) => gone.bytes > 0 && lastToGo(wentForRoom) === gone))
          expect(bytesOf(kept) + one.bytes).toBeGreaterThan(atMost);
      }),
    );
  });
  /** Those made before a change go last, and of either sort the youngest. */
  const lastToGo = (gone: readonly Dated[]): Dated | undefined =>
    [...gone].sort((a, b) => Number(guarded(b)) - Number(guarded(a)) || age(a) - age(b))[0];

  test('[P5] for room the oldest goes first, those before a change after all others', () => {
    fc.assert(
      fc.property(someBackups, fc.nat(8000), (all, atMost) => {
        const byAge = left(all, room);
        const kept = left(all, atMost);
        const newest = newestSound(all);
        for (const gone of byAge.filter((one) => !kept.includes(one)))
          for (const stayed of kept.filter((one) => one !== newest)) {
            expect(guarded(gone) && !guarded(stayed), 'one made before a change went for one that was not').toBe(false);
            if (guarded(gone) === guarded(stayed)) expect(age(gone)).toBeGreaterThanOrEqual(age(stayed));
          }
      }),
    );
  });

  test('[P5] with room enough: all of a day and of what guards a change, one a day, one a month, and nothing older than a year', () => {
    fc.assert(
      fc.property(someBackups, (all) => {
        const kept = left(all, room);
        const newest = newestSound(all);
        for (const one of all) {
          if (age(one) <= day || (age(one) <= 30 * day && one.reason !== 'hourly')) expect(kept).toContain(one);
          if (age(one) > 365 * day && one !== newest) expect(kept).not.toContain(one);
        }
        const hourly = kept.filter((one) => one.sound && one.reason === 'hourly' && age(one) > day && one !== newest);
        const days = hourly.filter((one) => age(one) <= 30 * day).map(({ at }) => at.slice(0, 10));
        expect(new Set(days).size).toBe(days.length);
        const months = kept.filter((one) => age(one) > 30 * day && one !== newest).map(({ at }) => at.slice(0, 7));
        expect(new Set(months).size).toBe(months.length);
        // Every day and every month that had a sound one still has one.
        for (const one of all.filter(({ sound }) => sound)) {
          if (age(one) <= 29 * day) expect(kept.some((other) => other.sound && other.at.slice(0, 10) === one.at.slice(0, 10))).toBe(true);
          if (age(one) <= 334 * day) expect(kept.some((other) => other.sound && other.at.slice(0, 7) === one.at.slice(0, 7))).toBe(true);
        }
      }),
    );
  });

  test('[P5] what is dropped once leaves nothing more to drop, and their order does not matter', () => {
    fc.assert(
      fc.property(someBackups, fc.nat(8000), (all, atMost) => {
        expect(thoseToDrop(left(all, atMost), now, atMost)).toEqual([]);
        expect(thoseToDrop([...all].reverse(), now, atMost)).toEqual(thoseToDrop(all, now, atMost));
      }),
    );
  });
});

describe('[P5] bounds', () => {
  const kept = (all: readonly Dated[], atMost = room) => left(all, atMost).length;
  const newest = made(0.5);
  test.each([['24 hours old is kept, a minute more is not', made(24), made(24 + 1 / 60), made(23.9)]])(
    '[P5] %s',
    (_, inside, outside, sameDay) => {
      expect(kept([newest, sameDay, inside])).toBe(3);
      expect(left([newest, sameDay, outside], room)).not.toContain(outside);
    },
  );
  test('[P5] the last of a day for 30 days; one before a change as long, and then it too is one of its month', () => {
    // Of its month, October, a younger one is the last.
    const younger = made(29 * 24);
    for (const reason of ['hourly', 'before-pack'] as const) {
      expect(kept([newest, younger, made(30 * 24, reason)])).toBe(3);
      expect(kept([newest, younger, made(30 * 24 + 0.1, reason)])).toBe(2);
      expect(kept([newest, made(30 * 24 + 0.1, reason)])).toBe(2);
    }
  });
  test('[P5] one a month for 365 days', () => {
    expect(kept([newest, made(365 * 24)])).toBe(2);
    expect(kept([newest, made(365 * 24 + 0.1)])).toBe(1);
  });
  test('[P5] room to the byte', () => {
    expect(kept([newest, made(2)], 200)).toBe(2);
    expect(left([newest, made(2)], 199)).toEqual([newest]);
  });
  test.each(['before-pack', 'before-migration'] as const)('[P5] one %s goes after younger ones that are not, for 30 days', (reason) => {
    expect(left([newest, made(2), made(20, reason)], 200)).toEqual([newest, made(20, reason)]);
    expect(left([newest, made(2), made(30 * 24, reason)], 200)).toEqual([newest, made(30 * 24, reason)]);
    // Past that it is kept as the last of its month, and goes like any other.
    expect(left([newest, made(2), made(30 * 24 + 0.1, reason)], 200)).toEqual([newest, made(2)]);
  });
  test.each(['before-restore', 'before-mend', 'asked', 'hourly'] as const)('[P5] one %s goes by its age', (reason) => {
    expect(left([newest, made(2), made(20, reason)], 200)).toEqual([newest, made(2)]);
  });
  test('[P5] an unreadable one stands for no day, and is kept 30 days to be seen', () => {
    const torn = made(49, 'hourly', 100, false);
    const sound = made(50);
    expect(left([newest, torn, sound], room)).toEqual([newest, torn, sound]);
    expect(kept([newest, made(31 * 24, 'hourly', 100, false)])).toBe(1);
  });
  test('[P5] one of a time to come does not stand for what there is now', () => {
    const ahead = made(-30);
    expect(left([ahead, newest, made(3)], 100)).toEqual([newest]);
    expect(left([ahead], 0)).toEqual([ahead]);
  });
});
