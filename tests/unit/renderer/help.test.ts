import { expect, test } from 'vitest';
import { asId, type SheetId } from '../../../reasoner/index.ts';
import type { HelpSection } from '../../../renderer/help/help.ts';
import { helpOf } from '../../../renderer/help/helpOf.ts';
import { parts } from '../../../renderer/help/parts.ts';
import type { Label, Piece } from '../../../renderer/help/said.ts';
import { keysOf } from '../../../renderer/help/screenKeys.ts';
import { type KeyGroup, keys } from '../../../renderer/look/keys.ts';
import { hrefOf, routeOf, type Screen } from '../../../renderer/route/route.ts';
import { shownBy, sources } from './source-labels.ts';

const sections: readonly HelpSection[] = parts.flatMap((part) => part.sections);
const headings = [...parts.map(({ id }) => id), ...sections.map(({ id }) => id)];

const shown = new Set(
  [...sources].flatMap(([file, text]) => (file.startsWith('help/') || file === 'look/keys.ts' ? [] : [...shownBy(file, text)])),
);
const isShown = ({ label }: Label): boolean => shown.has(label.replace(/\{[^}]*\}/g, '{}'));

const isLabel = (piece: Piece): piece is Label => typeof piece === 'object' && 'label' in piece;

const labelsOf = ({ lead = [], begins, steps = [], notes = [] }: HelpSection): readonly Label[] =>
  [lead, ...steps, ...notes, begins === undefined ? [] : [begins.is]].flat().filter(isLabel);

const quoted: readonly (readonly [string, readonly Label[]])[] = [
  ...parts.map(({ id, lead = [] }) => [id, lead.filter(isLabel)] as const),
  ...sections.map((section) => [section.id, labelsOf(section)] as const),
];

test.each(quoted)('[V4] every label help quotes under “%s” stands on a screen, as it is quoted', (_id, labels) => {
  expect(labels.filter((one) => !isShown(one)).map(({ label }) => label)).toEqual([]);
});

test('[V4] a label that stands nowhere is found out, and one that is only compared with, or said to nobody who sees', () => {
  const source = `
    import { x } from './Make it';
    export const A = ({ n }: { n: 'Type it' }) => n === 'Compare it' ? null : (
      <p className="Style it" title="Hover it" aria-label="Hear it">
        Press {n} times{' '}
        <Box title="Give it" className="Dress it">now &amp; then</Box> {n ? 'Write it' : \`Fill \${n} in\`}
      </p>
    );`;
  expect([...shownBy('a.tsx', source)].sort()).toEqual(['Fill {} in', 'Give it', 'Press {} times', 'Write it', 'now & then']);
});

test('[V4] no two headings of help share an address', () => {
  expect(new Set([...headings, 'keyboard', 'here']).size).toBe(headings.length + 2);
});

const screens: readonly Screen[] = [
  ...(['unit', 'report', 'sheets', 'listings', 'retold', 'backups', 'settings', 'stock', 'prices', 'packs', 'table'] as const).map(
    (screen) => ({
      screen,
    }),
  ),
  { screen: 'build', place: 'fill' },
  { screen: 'history', of: null },
  { screen: 'drills', place: 'drill', learner: null },
  { screen: 'apart', subjects: [] },
  { screen: 'case', sheet: asId<SheetId>('a') },
  { screen: 'glossary', term: null },
  { screen: 'tree', picks: [] },
  { screen: 'unknown', address: 'x' },
  { screen: 'key', families: [] },
  { screen: 'atlas', page: null },
  { screen: 'edit', place: { at: 'lists' } },
  ...['makers', 'families', 'generations', 'models', 'parts', 'slots'].map(
    (list): Screen => ({ screen: 'edit', place: { at: 'list', list } }),
  ),
];

test.each(screens)('[V4] F1 on %j opens help at a heading there is', (screen) => {
  expect(headings).toContain(helpOf(screen));
});

test('[V4] F1 leads to the recipe of the screen it is pressed on', () => {
  const at = (hash: string) => helpOf(routeOf(hash) as Screen);
  expect(
    [
      '#/table',
      '#/packs',
      '#/history',
      '#/backups',
      '#/stock',
      '#/edit/makers/new',
      '#/edit/models',
      '#/edit/parts/a',
      '#/build',
      '#/tree',
    ].map(at),
  ).toEqual(['spreadsheet', 'pack', 'history', 'backups', 'shop', 'maker', 'model', 'part', 'hybrid', 'learning']);
});

test('[V4] every key of the window is shown on the screens it works on, and those of every screen on all', () => {
  const of = screens.map((screen) => keysOf(screen));
  expect(Object.values<KeyGroup>(keys).filter((group) => !of.some((shown) => shown.includes(group)))).toEqual([]);
  expect(of.filter((shown) => shown.at(-1) !== keys.everywhere)).toEqual([]);
  expect(keysOf({ screen: 'unit' })[0]).toBe(keys.unit);
});

test('[V4] every recipe begins at a place of the window', () => {
  for (const { begins } of sections) if (begins !== undefined) expect(routeOf(hrefOf(begins.at))).toEqual(begins.at);
});
