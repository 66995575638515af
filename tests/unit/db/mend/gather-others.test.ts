import { expect, test } from 'vitest';
import { answer, backupOf, but, card, course, damagedOf, gathered, inBackup, kept, learner, loose, time } from './sources-of.ts';

const [older, newer] = ['2026-02-20T20:00:00.000Z', '2026-02-27T20:00:00.000Z'] as const;
const of = ({ rows }: ReturnType<typeof gathered>, table: string) => rows.get(table) ?? [];
const tables = ['courses', 'learners', 'drill_cards', 'drill_answers'] as const;
const all = [
  ...kept('courses', course('first-week')),
  ...kept('learners', learner('osk', '2026-02-01'), learner('wenna', '2026-02-02')),
  ...kept('drill_cards', card('osk', 'looks:petrel+skua', '2026-02-03')),
  ...kept('drill_answers', answer('osk', 1, '2026-02-03'), answer('wenna', 1, '2026-02-04')),
];

test('[P3] what was learnt is taken as it stands, and where all of it is there no copy is asked', () => {
  const more = [...kept('courses', course('second-week')), ...kept('drill_answers', answer('osk', 2, '2026-02-05'))];
  const found = gathered(damagedOf(all), { backups: [backupOf(newer, [...all, ...more])] });
  expect(of(found, 'courses')).toEqual([course('first-week')]);
  expect(of(found, 'learners')).toEqual([learner('osk', '2026-02-01'), learner('wenna', '2026-02-02')]);
  expect(of(found, 'drill_cards')).toEqual([card('osk', 'looks:petrel+skua', '2026-02-03')]);
  expect(of(found, 'drill_answers')).toEqual([answer('osk', 1, '2026-02-03'), answer('wenna', 1, '2026-02-04')]);
  expect([...found.rows.keys()].sort()).toEqual(['case_photos', ...tables].sort());
  expect(found).toMatchObject({ from: [], lost: [], incomplete: [] });
});

test('[P3] what is gone of it comes from the newest backup that has it, each told as what it is and of whom', () => {
  const now = kept('drill_answers', answer('osk', 2, '2026-02-09'));
  const before = [...kept('drill_answers', answer('osk', 2, '2026-02-06')), ...kept('learners', learner('rusk', '2026-01-01'))];
  const damaged = damagedOf([...but(all, 'gone', ...tables), ...now]);
  const found = gathered(damaged, { backups: [backupOf(newer, all), backupOf(older, [...all, ...before])] });
  expect(of(found, 'drill_answers')).toEqual([
    answer('osk', 2, '2026-02-09'),
    answer('osk', 1, '2026-02-03'),
    answer('wenna', 1, '2026-02-04'),
  ]);
  expect(of(found, 'learners').map(({ id }) => id)).toEqual(['osk', 'wenna', 'rusk']);
  const source = inBackup(newer);
  expect(found.from).toEqual([
    { what: 'course', of: 'first-week', source, saved: null },
    { what: 'learner', of: 'osk', source, saved: null },
    { what: 'learner', of: 'wenna', source, saved: null },
    { what: 'learner', of: 'rusk', source: inBackup(older), saved: null },
    { what: 'card', of: 'osk', source, saved: null },
    { what: 'answer', of: 'osk', source, saved: time('2026-02-03') },
    { what: 'answer', of: 'wenna', source, saved: time('2026-02-04') },
  ]);
  expect(found.incomplete).toEqual([...tables]);
});

test('[P3] each of these is asked of copies by itself: what is whole is as it is', () => {
  for (const table of tables) {
    const backups = [
      backupOf(newer, [...all, ...kept('courses', course('second-week')), ...kept('learners', learner('rusk', '2026-01-01'))]),
    ];
    const found = gathered(damagedOf(but(all, 'gone', table)), { backups });
    expect(new Set(found.from.map(({ what }) => what)).size, table).toBe(1);
    for (const other of tables)
      if (other !== table) expect(of(found, other)).toEqual(all.filter((one) => one.table === other).map(({ row }) => row));
  }
});

test('[P3] of a learner whom a whole list of learners no longer has nothing comes back, of a copy or of a page nothing leads to', () => {
  const gone = [...kept('drill_cards', card('gone', 'looks:a', '2026-02-03')), ...kept('drill_answers', answer('gone', 1, '2026-02-03'))];
  const back = [...kept('learners', learner('gone', '2026-02-01')), ...gone];
  const further = { broken: ['drill_cards', 'drill_answers', 'courses'] };
  const inCopy = gathered(damagedOf(all, further), {
    backups: [backupOf(newer, [...all, ...back, ...kept('courses', course('second-week'))])],
  });
  expect(inCopy.from).toEqual([{ what: 'course', of: 'second-week', source: inBackup(newer), saved: null }]);
  const onPage = gathered(
    damagedOf([...all, ...loose('drill_answers', answer('gone', 1, '2026-02-03'), answer('osk', 2, '2026-02-05'))], further),
  );
  expect(of(onPage, 'drill_answers')).toEqual([
    answer('osk', 1, '2026-02-03'),
    answer('wenna', 1, '2026-02-04'),
    answer('osk', 2, '2026-02-05'),
  ]);
  // Where the list of learners is not whole, nothing says that they were removed.
  const unsaid = gathered(
    damagedOf([...all, ...loose('drill_cards', card('gone', 'looks:a', '2026-02-03'))], { broken: ['learners', 'drill_answers'] }),
    {
      backups: [backupOf(newer, [...all, ...back])],
    },
  );
  expect(of(unsaid, 'learners').map(({ id }) => id)).toEqual(['osk', 'wenna', 'gone']);
  expect(of(unsaid, 'drill_cards').map((row) => row.learner)).toEqual(['osk', 'gone']);
  expect(of(unsaid, 'drill_answers').map((row) => row.learner)).toEqual(['osk', 'wenna', 'gone']);
});

test('[P3] what a learner of whom only answers are left has learnt is taken: the row of a tree is never dropped', () => {
  const rows = kept('drill_answers', answer('osk', 1, '2026-02-03'));
  expect(of(gathered(damagedOf(rows)), 'drill_answers')).toEqual([answer('osk', 1, '2026-02-03')]);
});

test('[P3] answers are told from one another by what was asked, for a mending counts them anew: a backup from before it gives those that are gone, and none twice', () => {
  const osk = kept('learners', learner('osk', '2026-02-01'));
  const first = answer('osk', 1, '2026-02-03');
  const [second, third] = [answer('osk', 2, '2026-02-04'), answer('osk', 3, '2026-02-05')];
  // The first was lost in an earlier mending, so that the others moved up by one; now the third is lost too.
  const found = gathered(damagedOf([...osk, ...kept('drill_answers', { ...second, n: 1 })], { broken: ['drill_answers'] }), {
    backups: [backupOf(older, [...osk, ...kept('drill_answers', first, second, third)])],
  });
  expect(of(found, 'drill_answers')).toEqual([{ ...second, n: 1 }, first, third]);
});
