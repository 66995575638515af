import { expect, test } from 'vitest';
import { type KeyGroup, keys } from '../../../renderer/look/keys.ts';
import { type Pressed, presses, shortcuts } from '../../../renderer/look/presses.ts';
import { sources } from './source-labels.ts';

const groups: Readonly<Record<string, KeyGroup>> = keys;
const lines = new Map(
  Object.entries(groups).flatMap(([group, { lines: of }]) => Object.entries(of).map(([line, is]) => [`${group}.${line}`, is])),
);

/** Where each line of the list is listened for. What a browser does by itself (Escape on a box, letters on a choice) stands with what it does it on. */
const heard: Readonly<Record<string, readonly string[]>> = {
  'help/useHelp.ts': ['everywhere.help'],
  'number/useNumberKey.ts': ['everywhere.number'],
  'number/NumberDialog.tsx': ['lists.in', 'lists.open'],
  'bench/useBenchKeys.ts': ['everywhere.save', 'everywhere.undo', 'everywhere.redo', 'everywhere.nextUnit', 'everywhere.unitBefore'],
  'glossary/TermLink.tsx': ['everywhere.leave'],
  'glossary/WordsHere.tsx': ['everywhere.leave'],
  'look/Combobox.tsx': ['boxes.walk', 'boxes.take', 'boxes.all', 'boxes.close'],
  'edit/RefField.tsx': ['boxes.clear'],
  'packs/WordRow.tsx': ['boxes.clear'],
  'look/heldKeys.ts': ['unit.enter', 'unit.leave'],
  // Strikes again what was held, for whoever hears it.
  'look/keyAgain.ts': ['unit.enter', 'unit.remove', 'unit.choose', 'table.written'],
  'look/searchKeys.ts': ['lists.in', 'lists.open'],
  'look/walkLinks.ts': ['lists.in', 'lists.out'],
  'lists/ShopList.tsx': ['lists.in', 'lists.out'],
  'atlas/AtlasIndex.tsx': ['lists.fold'],
  'sheet/SheetColumn.tsx': ['unit.slots'],
  'sheet/TitleAndClaim.tsx': ['unit.on'],
  'sheet/useEntryEditor.ts': ['unit.leave'],
  'sheet/Picks.tsx': ['unit.choose'],
  'sheet/ObservationRow.tsx': ['unit.remove'],
  'sheet/UnseenRow.tsx': ['unit.remove'],
  'odds/useNextCheck.ts': ['unit.next', 'unit.unseen'],
  'verdict/PageSwitch.tsx': ['unit.pages'],
  'verdict/useCopied.ts': ['unit.copy'],
  'graph/GraphList.tsx': ['unit.graph'],
  'odds/PlanTree.tsx': ['unit.plan', 'unit.fold'],
  'guided/usePointed.ts': ['guided.go'],
  'sheet/WheelCounter.tsx': ['counting.tap', 'counting.back', 'counting.round'],
  'listing/ListingDialog.tsx': ['listing.on'],
  'build/ChosenSlots.tsx': ['build.slots'],
  'tree/TreeOutline.tsx': ['tree.walk', 'tree.fold', 'tree.level', 'tree.pick', 'tree.find'],
  'tree/TreeCanvas.tsx': ['tree.zoom'],
  'drills/useDrill.ts': ['drills.choose', 'drills.back'],
  'edit/EntryPage.tsx': ['forms.make'],
  'edit/FactGrid.tsx': ['forms.on', 'forms.back'],
  'edit/ListField.tsx': ['forms.add', 'forms.takeAway', 'forms.move'],
  'edit/TableField.tsx': ['forms.add'],
  'edit/ModelForm.tsx': ['forms.role'],
  'table/CellsStep.tsx': ['table.next', 'table.before'],
  'table/TableGrid.tsx': ['table.cells', 'table.write', 'table.written', 'table.leave', 'table.empty'],
};
/** A key that is another’s to hear: the box hears it and hands it on, or the browser does it with a form or a choice. */
const handedOn: Readonly<Record<string, string>> = {
  'unit.enter': 'sheet/ObservationEditor.tsx',
  'table.columns': 'table/ColumnsStep.tsx',
};

const names: Readonly<Record<string, string>> = { '↓': 'ArrowDown', '↑': 'ArrowUp', '→': 'ArrowRight', '←': 'ArrowLeft', Space: ' ' };
const named = /^(Arrow(Up|Down|Left|Right)|Enter|Escape|Home|End|Page(Up|Down)|Delete|Backspace|Tab|Insert|F\d+|\*)$/;

/** The keys a source names in quotes or as fields, and single characters it compares with. */
const keysIn = (text: string): ReadonlySet<string> =>
  new Set(
    [
      ...[...text.matchAll(/'([^'\n]*)'|^\s+(\w+): \[-?/gm)]
        .map(([, inQuotes, field]) => inQuotes ?? field ?? '')
        .filter((one) => named.test(one)),
      ...[...text.matchAll(/(?:key\)? ===|case) '(.)'/g)].map(([, one]) => one ?? ''),
    ].filter((one) => one !== ''),
  );
/** The lines a source asks about by name, which then cannot hear other keys than help shows. */
const asked = (text: string): ReadonlySet<string> =>
  new Set([
    ...[...text.matchAll(/keys\.(\w+)\.lines\.(\w+)/g)].map(([, group, line]) => `${group}.${line}`),
    ...[...text.matchAll(/const \{([^}]+)\} = keys\.(\w+)\.lines;/g)].flatMap(([, taken = '', group]) =>
      taken.split(',').map((one) => `${group}.${one.split(':')[0]?.trim()}`),
    ),
  ]);
const listens = (text: string): boolean =>
  /on(Empty)?Key|useWindowKey|'keydown'|KeyboardEvent/.test(text) && (keysIn(text).size > 0 || asked(text).size > 0);
const keyOf = (press: string): string => {
  const key = press.split(/\+(?=.)/).at(-1) ?? '';
  return names[key] ?? key;
};

test('[V4] the sources that hear a key are those on the list', () => {
  const all = [...sources].filter(([, text]) => listens(text)).map(([file]) => file);
  expect(all.sort()).toEqual(Object.keys(heard).sort());
});

test('[V8] who hears the keys of the whole window does so by the one hook that begins before it is painted, or holds keys from the moment one is awaited', () => {
  const all = [...sources]
    .filter(([, text]) => /(?:window|document(?:\.\w+)?)\.addEventListener\(\s*'key/.test(text))
    .map(([file]) => file);
  expect(all.sort()).toEqual(['glossary/TermLink.tsx', 'look/heldKeys.ts', 'look/useWindowKey.ts']);
});

test.each(Object.entries(heard))('[V4] %s hears no key that help does not show', (file, ids) => {
  const shown = ids.flatMap((id) => lines.get(id)?.press.map(keyOf) ?? []);
  expect([...keysIn(sources.get(file) ?? '')].filter((key) => !shown.includes(key))).toEqual([]);
});

test.each([...lines])('[V4] the keys help shows as “%s” are heard', (id, { press }) => {
  const at = Object.entries(heard).flatMap(([file, ids]) => (ids.includes(id) ? [sources.get(file) ?? ''] : []));
  if (at.length === 0) return expect(sources.has(handedOn[id] ?? '')).toBe(true);
  if (at.some((text) => asked(text).has(id))) return;
  for (const one of press) {
    const key = keyOf(one);
    expect(
      at.some((text) => hears(text, key)),
      `${one} of ${id}`,
    ).toBe(true);
    for (const modifier of ['Ctrl', 'Alt', 'Shift'])
      if (one.startsWith(`${modifier}+`) || one.includes(`+${modifier}+`))
        expect(at.some((text) => text.includes(`${modifier.toLowerCase()}Key`))).toBe(true);
  }
});

const hears = (text: string, key: string): boolean => {
  if (/^[1-9…]$/.test(key)) return text.includes('[1-9]');
  if (key === 'a … z') return /key\.length [!=]== 1/.test(text);
  // A choice of the browser’s own goes by the first letter of what it offers.
  if (/^[NOS]$/.test(key)) return new RegExp(`\\['\\w+', '${key.toLowerCase()}`).test(text);
  return keysIn(text).has(key) || (key === ' ' && text.includes("' '"));
};

const key = (of: Partial<Pressed>): Pressed => ({ key: '', ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...of });

test.each([
  ['Ctrl+S', { key: 's', ctrlKey: true }],
  ['Ctrl+S', { key: 'S', metaKey: true }],
  ['Ctrl+Shift+Z', { key: 'Z', ctrlKey: true, shiftKey: true }],
  ['Alt+↓', { key: 'ArrowDown', altKey: true }],
  ['F8', { key: 'F8' }],
  ['Space', { key: ' ' }],
  ['+', { key: '+' }],
  ['?', { key: '?' }],
  ['?', { key: '?', shiftKey: true }],
] as const)('[V4] %s is pressed by %j', (one, event) => {
  expect(presses(key(event), { press: ['F9', one], does: '' })).toBe(true);
});

test.each([
  ['Ctrl+S', { key: 's' }],
  ['Ctrl+S', { key: 's', ctrlKey: true, altKey: true }],
  ['Ctrl+S', { key: 's', ctrlKey: true, shiftKey: true }],
  ['Ctrl+S', { key: 'd', ctrlKey: true }],
  ['F8', { key: 'F8', shiftKey: true }],
  ['F2', { key: 'F2', metaKey: true }],
  ['Alt+↓', { key: 'ArrowDown' }],
  ['?', { key: '?', ctrlKey: true }],
  ['?', { key: '/', shiftKey: true }],
  ['N', { key: 'n', shiftKey: true }],
] as const)('[V4] %s is not pressed by %j', (one, event) => {
  expect(presses(key(event), { press: [one], does: '' })).toBe(false);
});

test('[V4] keys are told to whoever hears the page as that is written', () => {
  expect(shortcuts({ press: ['Ctrl+Y', 'Ctrl+Shift+Z'], does: '' })).toBe('Control+Y Control+Shift+Z');
});
