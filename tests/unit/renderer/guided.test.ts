import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { asId, type ObservationId, type Sheet, type SheetId, type SlotId } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { type CaseEntry, type CaseHere, caseIn } from '../../../renderer/guided/firstCase.ts';
import { stepOf, stepsOf, type WhereNow } from '../../../renderer/guided/stepOf.ts';
import type { Label, Said } from '../../../renderer/help/said.ts';
import type { Screen } from '../../../renderer/route/route.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';
import { shownBy, sources } from './source-labels.ts';

const sample = JSON.parse(
  readFileSync(new URL('../../../seed-data/demo-pack/sheets/s01-petrel-13-claim.json', import.meta.url), 'utf8'),
) as Sheet;
const one = caseIn(demoAtlas) as CaseHere;
const blank: Sheet = blankSheet(asId<SheetId>('guided'));

const at = (sheet: Sheet, more: Partial<WhereNow> = {}) =>
  stepOf(one, { screen: { screen: 'unit' }, sheet, stored: false, entering: null, copied: false, ...more });

const plain = (said: Said): string =>
  said.map((piece) => (typeof piece === 'string' ? piece : 'label' in piece ? piece.label : 'typed' in piece ? piece.typed : '')).join('');

const made = ({ slot, feature, value }: CaseEntry, index: number): Sheet['observations'][number] => ({
  id: asId<ObservationId>(`o${index + 1}`),
  slot: slot.id,
  feature: feature.id,
  value,
  sure: { kind: 'seen' },
});
const claimed: Sheet = { ...blank, claimedMaker: one.maker, claimed: 'Petrel 13 Cartridge' };
const withFirst = (count: number): Sheet => ({ ...claimed, observations: one.entries.slice(0, count).map(made) });
const whole: Sheet = { ...withFirst(one.entries.length), absent: [one.absent.id] };

test('[V5] the guided case enters what the sample of the atlas holds, no more and no less', () => {
  expect(sample.claimed).toBe(one.name);
  expect(sample.claimedMaker).toBe(one.maker);
  expect(sample.absent).toEqual([one.absent.id]);
  const said = ({ slot, feature, value }: { slot: string; feature: string; value: unknown }) => JSON.stringify([slot, feature, value]);
  expect(one.entries.map(({ slot, feature, value }) => said({ slot: slot.id, feature: feature.id, value })).sort()).toEqual(
    sample.observations.map(said).sort(),
  );
});

test('[V5] an atlas without the maker, the model, a slot or a feature of the case has none', () => {
  expect(caseIn({ ...demoAtlas, makers: [] })).toBeNull();
  expect(caseIn({ ...demoAtlas, models: demoAtlas.models.filter(({ name }) => name !== one.name) })).toBeNull();
  expect(caseIn({ ...demoAtlas, slots: demoAtlas.slots.filter(({ id }) => id !== one.absent.id) })).toBeNull();
  const first = one.entries[0]?.feature.id;
  expect(caseIn({ ...demoAtlas, features: demoAtlas.features.filter(({ id }) => id !== first) })).toBeNull();
});

test('[V5] each step follows from the sheet: done in order, the case is counted through to its end', () => {
  const sheets = [
    blank,
    { ...blank, claimedMaker: one.maker },
    ...one.entries.map((_, count) => withFirst(count)),
    withFirst(one.entries.length),
  ];
  expect(sheets.map((sheet) => at(sheet).number)).toEqual(sheets.map((_, index) => index + 1));
  expect(at(whole).number).toBe(stepsOf(one) - 1);
  expect(at(whole).point).toEqual({ at: 'control', label: { label: 'Copy' } });
  expect(at(whole, { copied: true })).toMatchObject({ number: stepsOf(one), point: null });
});

test('[V5] what is done out of order counts, and what was copied too early does not', () => {
  expect(at({ ...whole, claimedMaker: null }, { copied: true }).number).toBe(1);
  expect(at({ ...whole, observations: whole.observations.slice(1) }).number).toBe(3);
  expect(at({ ...blank, absent: [one.absent.id] }).number).toBe(1);
});

test('[V5] the name counts as soon as it is the one that was offered, however it is spaced', () => {
  expect(at({ ...claimed, claimed: 'Petrel 13' }).number).toBe(2);
  expect(at({ ...claimed, claimed: ' petrel  13 cartridge ' }).number).toBe(3);
});

test('[V5] once the editor of a feature is open, the step says what to give there', () => {
  const [first, second] = one.entries as readonly [CaseEntry, CaseEntry];
  const open = (entry: CaseEntry) => ({ entering: { slot: entry.slot.id, feature: entry.feature.id } });
  expect(at(claimed).point).toMatchObject({ at: 'control', label: { label: 'Add to {compressor housing}' } });
  expect(at(claimed, open(first)).point).toEqual({ at: 'value' });
  expect(plain(at(claimed, open(first)).what)).toContain('MERROWBY');
  expect(at(claimed, open(second)).point).toMatchObject({ at: 'control' });
});

test.each([
  ['another count', (seen: Sheet['observations'][number]) => ({ ...seen, value: { kind: 'count', from: 6, to: 6 } as const })],
  ['a range of counts', (seen: Sheet['observations'][number]) => ({ ...seen, value: { kind: 'count', from: 7, to: 8 } as const })],
  ['one that was only told', (seen: Sheet['observations'][number]) => ({ ...seen, sure: { kind: 'told' } as const })],
])('[V5] an entry that says otherwise (%s) is pointed at', (_, spoil) => {
  const sheet = withFirst(2);
  const spoilt = { ...sheet, observations: sheet.observations.map((seen, index) => (index === 1 ? spoil(seen) : seen)) };
  expect(at(spoilt)).toMatchObject({ number: 4, point: { at: 'entry', entry: 'o2' } });
});

test('[V5] a mark may be written in any capitals, and no letters are not any letters', () => {
  const [cast] = one.entries as readonly [CaseEntry];
  const none = one.entries.find(({ value }) => value.kind === 'mark' && value.text === null) as CaseEntry;
  const says = (entry: CaseEntry, text: string | null): Sheet => ({
    ...whole,
    observations: whole.observations.map((seen) => (seen.feature === entry.feature.id ? { ...seen, value: { kind: 'mark', text } } : seen)),
  });
  expect(at(says(cast, 'Merrowby')).number).toBe(stepsOf(one) - 1);
  expect(at(says(cast, null)).point).toMatchObject({ at: 'entry' });
  expect(at(says(none, 'MERROWBY')).point).toMatchObject({ at: 'entry' });
});

test('[V5] another unit on the bench is left alone: the case begins on a sheet of its own', () => {
  const shield = { ...made(one.entries[0] as CaseEntry, 0), slot: asId<SlotId>('heat-shield') };
  const others: readonly (readonly [Sheet, boolean])[] = [
    [{ ...blank, kind: 'planned' }, false],
    [{ ...blank, observations: [shield] }, false],
    [{ ...blank, claimed: 'Rowan IV-18' }, true],
    [blank, true],
  ];
  for (const [sheet, stored] of others) {
    expect(at(sheet, { stored })).toMatchObject({ number: 0, point: { at: 'link', to: { screen: 'sheets' } } });
    expect(at(sheet, { stored, screen: { screen: 'sheets' } }).point).toEqual({ at: 'control', label: { label: 'New sheet' } });
  }
  // What is entered beside the case does no harm, and a sheet that was saved on the way goes on.
  expect(at({ ...whole, observations: [...whole.observations, shield] }).number).toBe(stepsOf(one) - 1);
  expect(at(withFirst(1), { stored: true }).number).toBe(4);
});

test('[V5] from another screen it leads back to the unit, but for its end', () => {
  const atlas: Screen = { screen: 'atlas', page: null };
  expect(at(withFirst(1), { screen: atlas })).toMatchObject({ number: 4, point: { at: 'link', to: { screen: 'unit' } } });
  expect(at(whole, { screen: atlas, copied: true })).toMatchObject({ number: stepsOf(one), point: null });
});

/** A control may be called what nobody sees, as `aria-label` says. */
const called = [...sources.values()].flatMap((text) =>
  [...text.matchAll(/aria-label=(?:"([^"]+)"|\{`([^`]+)`\})/g)].map((is) => (is[1] ?? is[2] ?? '').replace(/\$\{[^}]*\}/g, '{}')),
);
const shown = new Set([...sources].flatMap(([file, text]) => (/^(guided|help)\//.test(file) ? [] : [...shownBy(file, text)])));

test('[V5] every label the guided case quotes or points at stands on a screen, as it is quoted', () => {
  const [first] = one.entries as readonly [CaseEntry];
  const steps = [
    at(blank),
    at(blank, { stored: true }),
    at(blank, { stored: true, screen: { screen: 'sheets' } }),
    at({ ...blank, claimedMaker: one.maker }),
    ...one.entries.flatMap((entry, count) => [
      at(withFirst(count)),
      at(withFirst(count), { entering: { slot: entry.slot.id, feature: entry.feature.id } }),
    ]),
    at({ ...claimed, observations: [{ ...made(first, 0), sure: { kind: 'told' } }] }),
    at(withFirst(one.entries.length)),
    at(whole),
    at(whole, { copied: true }),
    at(whole, { screen: { screen: 'atlas', page: null } }),
  ];
  const quoted = steps.flatMap(({ what }) => what.filter((piece): piece is Label => typeof piece === 'object' && 'label' in piece));
  const pointed = steps.flatMap(({ point }) => (point?.at === 'control' ? [point.label] : []));
  const blankOf = ({ label }: Label): string => label.replace(/\{[^}]*\}/g, '{}');
  expect(quoted.map(blankOf).filter((one) => !shown.has(one))).toEqual([]);
  expect(pointed.map(blankOf).filter((one) => !shown.has(one) && !called.includes(one))).toEqual([]);
});
