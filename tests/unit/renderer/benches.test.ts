import { describe, expect, test } from 'vitest';
import type { OpenedSheet, Version } from '../../../db/answers.ts';
import { asId, type Sheet, type SheetId } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import {
  type Benches,
  type BenchesAction,
  benchesAfter,
  benchesAtStart,
  hasRoom,
  listOf,
  mostOpen,
  named,
  openWith,
  shownOf,
} from '../../../renderer/bench/benches.ts';
import { withTitle } from '../../../renderer/bench/sheetEdits.ts';
import { idOf, isUnsaved, keptOf, type Unit, type UnitAction, unitOf } from '../../../renderer/bench/unit.ts';
import { emptyBuild } from '../../../renderer/build/startBuild.ts';

const id = (text: string): SheetId => asId<SheetId>(text);
const found = (text: string, title = ''): Sheet => ({ ...blankSheet(id(text)), title });
const build = (text: string): Sheet => emptyBuild(id(text));
const stored = (sheet: Sheet, version = 'v1'): OpenedSheet => ({
  sheet,
  version: version as Version,
  whole: null,
  saved: { at: '2026-11-25T10:00:00.000Z', who: 'Osk', number: `2026-${sheet.id}` },
});

type WithoutFresh<A> = A extends unknown ? Omit<A, 'fresh'> : never;
const acted = (benches: Benches, ...actions: readonly WithoutFresh<BenchesAction>[]): Benches =>
  actions.reduce<Benches>((now, action, n) => benchesAfter(now, { ...action, fresh: id(`fresh-${n}`) } as BenchesAction), benches);
const opens = (sheet: Sheet, version?: string) => ({ do: 'take up', sheet, stored: stored(sheet, version) }) as const;
const begins = (sheet: Sheet) => ({ do: 'take up', sheet, stored: null }) as const;
const to = (text: string, act: UnitAction) => ({ do: 'to', id: id(text), act }) as const;
const titles = (text: string, title: string) => to(text, { do: 'edit', edit: withTitle(title), typing: null });

const start = benchesAtStart([], null, id('blank'));
const ids = ({ open }: Benches): readonly string[] => open.map(idOf);
const titleOf = (benches: Benches, text: string): string | undefined => openWith(benches, id(text))?.history.present.title;
const three = acted(start, opens(found('a', 'A')), opens(found('b', 'B')), opens(build('c')));

describe('[V6] units open side by side', () => {
  test('[V6] a window that begins with nothing has a blank sheet, whose place the first that is opened takes', () => {
    expect([ids(start), start.found, start.planned, start.kind]).toEqual([['blank'], 'blank', null, 'found']);
    const one = acted(start, opens(found('a', 'A')));
    expect([ids(one), one.found]).toEqual([['a'], 'a']);
  });

  test('[V6] one more is opened beside, and what is entered in one stays when another is shown', () => {
    expect([ids(three), three.found, three.planned, three.kind]).toEqual([['a', 'b', 'c'], 'b', 'c', 'planned']);
    const typed = acted(three, titles('a', 'A2'), titles('b', 'B2'), { do: 'turn to', id: id('a') });
    expect([typed.found, typed.planned, typed.kind]).toEqual(['a', 'c', 'found']);
    const undone = acted(typed, to('a', { do: 'undo' }));
    expect([titleOf(undone, 'a'), titleOf(undone, 'b')]).toEqual(['A', 'B2']);
    expect(openWith(undone, id('a'))?.history.future).toHaveLength(1);
  });

  test('[V6] a build leaves the found unit shown where units are, and a blank unit stays beside a build', () => {
    const began = acted(three, { do: 'turn to', id: id('a') }, begins(build('d')));
    expect([idOf(shownOf(began, 'found')), began.planned, ids(began)]).toEqual(['a', 'd', ['a', 'b', 'c', 'd']]);
    expect(ids(acted(start, begins(build('d'))))).toEqual(['blank', 'd']);
  });

  test('[V6] turning to what is not open, or telling something of it, changes nothing', () => {
    expect(acted(three, { do: 'turn to', id: id('z') })).toBe(three);
    expect(acted(three, titles('z', 'Z'))).toBe(three);
    expect(acted(three, { do: 'close', ids: [id('z')] })).toBe(three);
    expect(acted(three, to('a', { do: 'looked', against: keptOf(stored(found('a'))), there: null }))).toBe(three);
  });

  test('[V6] a screen of one kind is what screens of neither kind speak of; without a build that is always the unit', () => {
    expect(acted(three, { do: 'look at', kind: 'found' }).kind).toBe('found');
    expect(acted(three, { do: 'look at', kind: 'planned' })).toBe(three);
    expect(acted(three, { do: 'close', ids: [id('c')] }).kind).toBe('found');
  });

  test('[V6] of what is closed the next of its kind is shown, else the one before; the last found one leaves a blank sheet', () => {
    const four = acted(three, opens(found('d', 'D')), { do: 'turn to', id: id('b') });
    const one = acted(four, { do: 'close', ids: [id('b')] });
    expect([one.found, one.planned]).toEqual(['d', 'c']);
    const two = acted(one, { do: 'close', ids: [id('d')] });
    expect([two.found, ids(two)]).toEqual(['a', ['a', 'c']]);
    const none = acted(two, { do: 'close', ids: [id('a')] });
    expect([ids(none), none.found, none.planned]).toEqual([['c', 'fresh-0'], 'fresh-0', 'c']);
    expect(acted(four, { do: 'close', ids: [id('a')] }).found).toBe('b');
    const between = acted(start, opens(found('a')), opens(build('c')), opens(found('b')), opens(found('d')), {
      do: 'turn to',
      id: id('a'),
    });
    expect(acted(between, { do: 'close', ids: [id('a')] }).found).toBe('b');
    expect(acted(three, { do: 'close', ids: [id('a'), id('b'), id('c')] })).toMatchObject({ found: 'fresh-0', planned: null });
  });

  test('[V6] what was typed and taken back leaves a sheet another may take the place of; one with a part chosen does not', () => {
    const typed = acted(start, titles('blank', 'G'), to('blank', { do: 'undo' }));
    expect(ids(acted(typed, opens(found('a', 'A'))))).toEqual(['a']);
    const chosen = { ...build('d'), title: '', chosen: { shaft: asId('s1') } } as unknown as Sheet;
    const kept = acted(start, begins(chosen));
    expect(isUnsaved(openWith(kept, id('d')) as Unit)).toBe(true);
    expect(ids(acted(kept, begins(build('e'))))).toEqual(['blank', 'd', 'e']);
  });
});

describe('[V6] a sheet that is open already', () => {
  test('[V6] is turned to with its entries, its history and the state it was made of', () => {
    const typed = acted(three, titles('a', 'A2'));
    const again = acted(typed, opens(found('a', 'A')));
    expect(openWith(again, id('a'))).toBe(openWith(typed, id('a')));
    expect([again.found, ids(again)]).toEqual(['a', ['a', 'b', 'c']]);
  });

  test('[H5] saved elsewhere meanwhile, is shown as it is there where nothing was entered here', () => {
    const again = acted(three, opens(found('a', 'Theirs'), 'v2'));
    expect(titleOf(again, 'a')).toBe('Theirs');
    expect(isUnsaved(openWith(again, id('a')) as Unit)).toBe(false);
    expect(titleOf(acted(again, to('a', { do: 'undo' })), 'a')).toBe('A');
  });

  test('[H5] saved elsewhere meanwhile, keeps what was entered here and tells of the other', () => {
    const again = acted(three, titles('a', 'Mine'), opens(found('a', 'Theirs'), 'v2'));
    const unit = openWith(again, id('a'));
    expect([unit?.history.present.title, unit?.kept?.version, unit?.elsewhere?.how]).toEqual(['Mine', 'v1', 'changed']);
  });

  test('[V6] read from a file, is one step back from what was here, and held against what is kept', () => {
    const again = acted(three, titles('a', 'Mine'), { do: 'take up', sheet: found('a', 'File'), stored: stored(found('a', 'B4'), 'v3') });
    const unit = openWith(again, id('a'));
    expect([unit?.history.present.title, unit?.kept?.version]).toEqual(['File', 'v3']);
    expect(titleOf(acted(again, to('a', { do: 'undo' })), 'a')).toBe('Mine');
  });

  test('[V6] taken once more from where it was taken before, keeps what was entered since', () => {
    const once = acted(start, begins(found('t', 'Row')), titles('t', 'Row, looked at'));
    expect(titleOf(acted(once, begins(found('t', 'Row'))), 't')).toBe('Row, looked at');
    expect(titleOf(acted(once, begins(found('t', 'Another row'))), 't')).toBe('Another row');
  });
});

describe('[V6] so many and no more', () => {
  const full = acted(start, ...Array.from({ length: mostOpen }, (_, n) => opens(found(`u${n}`, `U${n}`))));

  test('[V6] there is room up to the most, and beyond it nothing is displaced', () => {
    expect(full.open).toHaveLength(mostOpen);
    expect(hasRoom(full, found('more'))).toBe(false);
    expect(hasRoom(full, found('u3'))).toBe(true);
    expect(acted(full, opens(found('more', 'M')))).toBe(full);
    const room = acted(full, { do: 'close', ids: [id('u0')] });
    expect(hasRoom(room, found('more'))).toBe(true);
  });

  test('[V6] a blank sheet counts for nothing and gives its place to one of its kind', () => {
    const blank = acted(full, { do: 'close', ids: [id('u0')] }, begins(found('new')));
    expect([blank.open.length, blank.found]).toEqual([mostOpen, 'new']);
    expect([hasRoom(blank, found('more')), hasRoom(blank, build('c'))]).toEqual([true, true]);
    const builds = acted(blank, opens(build('c')));
    expect([hasRoom(builds, found('more')), hasRoom(builds, build('d'))]).toEqual([true, false]);
  });

  test('[V6] a blank sheet is named where it is shown and nowhere else', () => {
    const began = acted(start, begins(build('d')));
    expect(named(began, id('blank')).map(idOf)).toEqual(['blank', 'd']);
    expect(named(began, id('d')).map(idOf)).toEqual(['d']);
  });
});

describe('[V6] what was open when a window was lost', () => {
  const before = listOf(acted(three, { do: 'turn to', id: id('a') }, titles('b', 'B2')));
  const draft = unitOf(found('b', 'B2'), keptOf(stored(found('b', 'B'))), true);
  const lost = benchesAtStart([draft], before, id('blank'));
  const back = (benches: Benches, opened: readonly Sheet[], gone: readonly string[] = []) =>
    acted(benches, { do: 'bring back', opened: opened.map((one) => stored(one)), gone: gone.map(id), before });

  test('[V6] is remembered in its order, with what was shown of each kind, and no blank sheet', () => {
    expect(before).toEqual({ order: ['a', 'b', 'c'], found: 'a', planned: 'c' });
    expect(listOf(start)).toMatchObject({ order: [] });
    expect(listOf(lost).order).toEqual(['b', 'a', 'c']);
  });

  test('[V6] comes back in its order: what was not saved at once, what was saved from the shelf, what was shown first', () => {
    expect([ids(lost), lost.found, lost.coming]).toEqual([['b', 'blank'], 'blank', ['a', 'c']]);
    const whole = back(lost, [build('c'), found('a', 'A')]);
    expect([ids(whole), whole.found, whole.planned, whole.coming]).toEqual([['a', 'b', 'c'], 'a', 'c', []]);
    expect([openWith(whole, id('b'))?.recovered, openWith(whole, id('a'))?.recovered]).toEqual([true, false]);
    expect(titleOf(whole, 'b')).toBe('B2');
  });

  test('[V6] of several builds the one that was shown is shown again', () => {
    expect(back(lost, [build('c'), build('e'), found('a', 'A')]).planned).toBe('c');
  });

  test('[V6] a draft that was shown is shown at once', () => {
    const shown = benchesAtStart([draft], { ...before, found: id('b') }, id('blank'));
    expect([ids(shown), shown.found]).toEqual([['b'], 'b']);
    expect(back(shown, [found('a', 'A'), build('c')]).found).toBe('b');
  });

  test('[V6] whoever has begun on the blank sheet meanwhile stays with it, and a sheet opened meanwhile is not opened twice', () => {
    const typed = back(acted(lost, titles('blank', 'New')), [found('a', 'A'), build('c')]);
    expect([typed.found, ids(typed)]).toEqual(['blank', ['a', 'b', 'c', 'blank']]);
    const opened = back(acted(lost, opens(found('a', 'A')), titles('a', 'A2')), [found('a', 'A'), build('c')]);
    expect([titleOf(opened, 'a'), ids(opened)]).toEqual(['A2', ['a', 'b', 'c']]);
    expect(listOf(acted(lost, opens(found('a', 'A')))).order).toEqual(['b', 'a', 'c']);
  });

  test('[V6] one removed meanwhile is not waited for any more; one that could not be fetched is remembered', () => {
    const only = benchesAtStart([], { order: [id('a'), id('e')], found: id('a'), planned: null }, id('blank'));
    const gone = acted(only, {
      do: 'bring back',
      opened: [stored(found('e', 'E'))],
      gone: [id('a')],
      before: { order: [id('a'), id('e')], found: id('a'), planned: null },
    });
    expect([ids(gone), gone.found, gone.coming]).toEqual([['e'], 'e', []]);
    const away = back(lost, [build('c')]);
    expect([ids(away), away.found, listOf(away).order]).toEqual([['b', 'c', 'blank'], 'blank', ['b', 'c', 'a']]);
  });

  test('[V6] of a window that was left on a blank sheet nothing else is shown in its place', () => {
    const list = { order: [id('a')], found: id('none'), planned: null };
    const began = benchesAtStart([], list, id('blank'));
    const whole = acted(began, { do: 'bring back', opened: [stored(found('a', 'A'))], gone: [], before: list });
    expect([whole.found, ids(whole)]).toEqual(['blank', ['a', 'blank']]);
  });

  test('[V6] drafts of a window of an earlier program come back without a list', () => {
    const drafts = benchesAtStart([draft, unitOf(build('c'), null, true)], null, id('blank'));
    expect([ids(drafts), drafts.found, drafts.planned]).toEqual([['b', 'c'], 'b', 'c']);
  });
});

describe('[H5] what became of the stored copy of an open unit', () => {
  const theirs = stored(found('a', 'Theirs'), 'v2');
  const met = { how: 'changed', theirs } as const;

  test('[H5] is told of it and of no other, until it is saved or joined', () => {
    const kept = openWith(three, id('a'))?.kept ?? null;
    if (kept === null) throw new Error('it was opened from the shelf');
    const told = acted(three, to('a', { do: 'looked', against: kept, there: met }));
    expect([openWith(told, id('a'))?.elsewhere, openWith(told, id('b'))?.elsewhere]).toEqual([met, null]);
    expect(openWith(acted(told, to('a', { do: 'saved', kept: keptOf(theirs), at: null })), id('a'))?.elsewhere).toBeNull();
    expect(openWith(acted(told, to('a', { do: 'join', sheet: theirs.sheet, kept: keptOf(theirs) })), id('a'))?.elsewhere).toBeNull();
    const late = { ...kept };
    expect(openWith(acted(three, to('a', { do: 'looked', against: late, there: met })), id('a'))?.elsewhere).toBeNull();
  });

  test('[H5] a save that meets it asks where that unit is shown, and says why it was not saved', () => {
    const asked = acted(three, to('a', { do: 'met', met }));
    expect(openWith(asked, id('a'))).toMatchObject({ asks: met, saving: { state: 'trouble', trouble: { code: 'changed-since' } } });
    expect(openWith(asked, id('b'))?.asks).toBeNull();
    const later = acted(asked, to('a', { do: 'asked' }));
    expect(openWith(later, id('a'))).toMatchObject({ asks: null, saving: { state: 'trouble' } });
  });

  test('[H5] removed from the shelf, an open unit is the only one there is', () => {
    const gone = acted(three, to('a', { do: 'kept no more' }));
    expect([openWith(gone, id('a'))?.kept, isUnsaved(openWith(gone, id('a')) as Unit)]).toEqual([null, true]);
    expect(openWith(gone, id('b'))?.kept).not.toBeNull();
  });
});
