import path from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { openStore, type Store, versionOf } from '../../../db/index.ts';
import type { Desk } from '../../../electron/bridge/desk.ts';
import { receive } from '../../../electron/bridge/receive.ts';
import { mendSetting } from '../../../electron/desk/mend.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { askedForPacks } from '../../../electron/desk/open-house.ts';
import { asId, blankSheet, type Observation, type Seen, type Sheet, type Slip, type Sure } from '../../../reasoner/index.ts';

let store: Store;
let desk: Desk;
beforeAll(async () => {
  const opened = await openStore(':memory:', askedForPacks);
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  store = opened.value;
  const loaded = await store.packs.load(path.join(import.meta.dirname, '../../../seed-data/demo-pack'));
  if (!loaded.ok) throw new Error(loaded.trouble.sentence);
  desk = openDesk(store);
  return () => store.close();
});

const bug = (place: string, error: unknown) => {
  throw new Error(`${place}: ${String(error)}`);
};
const ask = (name: string, args: unknown) => receive(desk, name, args, bug);

const blank = blankSheet(asId('slips'));
const entry = (feature: string, value: Seen, sure: Sure, more: Partial<Observation> = {}): Observation => ({
  id: asId(`of-${feature}`),
  slot: asId(feature.startsWith('nameplate') ? 'nameplate' : 'compressor-wheel'),
  feature: asId(feature),
  value,
  sure,
  ...more,
});
const exducer = (value: number, more: Partial<Observation> = {}) =>
  entry('compressor-wheel-exducer', { kind: 'measure', value }, { kind: 'measured', u: 0.025 }, more);
const sheetOf = (...observations: Observation[]): Sheet => ({ ...blank, observations });

describe('[O7] over the bridge, an entry is refused at every call unless it can be and is plausible or confirmed', () => {
  const confirmed = versionOf(sheetOf(exducer(5720, { confirmed: true })));
  const calls: readonly (readonly [string, (sheet: Sheet) => unknown])[] = [
    ['verdict.of', (sheet) => ({ sheet })],
    ['verdict.explain', (sheet) => ({ sheet, name: 'parts' })],
    ['odds.of', (sheet) => ({ sheet })],
    ['report.of', (sheet) => ({ sheet })],
    ['build.plan', (sheet) => ({ sheet })],
    ['sheets.save', (sheet) => ({ sheet, who: 'Marit', madeAgainst: sheet.observations[0]?.confirmed ? null : confirmed })],
  ];
  test.each(calls)('[O7] %s', async (name, args) => {
    const swapped = await ask(name, args(sheetOf(exducer(5720))));
    expect(swapped).toMatchObject({ ok: false, trouble: { code: 'sheet-doubted', place: 'sheet slips, observations[0].value.value' } });
    expect(swapped.ok ? '' : swapped.trouble.sentence).toBe(
      'An exducer diameter of 5720 mm lies outside what is usual, 20 to 260 mm. It would be 57.2 mm, if the decimal point slipped. Say that it is what was read, or enter it again.',
    );
    for (const figure of [0, -3, 2_000_000])
      expect(await ask(name, args(sheetOf(exducer(figure, { confirmed: true })))), `${figure}`).toMatchObject({
        ok: false,
        trouble: { code: 'sheet-invalid' },
      });
    expect(await ask(name, args(sheetOf(exducer(5720, { confirmed: true })))), 'confirmed').toMatchObject({ ok: true });
    expect(await ask(name, args(sheetOf(exducer(57.2)))), 'as usual').toMatchObject({ ok: true });
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, '57.2'])('[O7] a size of %s does not get as far', async (value) => {
    expect(await ask('verdict.of', { sheet: sheetOf(exducer(value as number, { confirmed: true })) })).toMatchObject({
      ok: false,
      trouble: { code: 'malformed' },
    });
  });
  test.each([0, -0.02, Number.NaN, Number.POSITIVE_INFINITY])('[O7] an uncertainty of %s does not either', async (u) => {
    const given = exducer(57.2, { sure: { kind: 'measured', u }, confirmed: true });
    expect(await ask('verdict.of', { sheet: sheetOf(given) })).toMatchObject({ ok: false, trouble: { code: 'malformed' } });
  });
  test('[O7] an uncertainty so wide that the reading says nothing', async () => {
    const given = exducer(57.2, { sure: { kind: 'measured', u: 400 } });
    expect(await ask('verdict.of', { sheet: sheetOf(given) })).toMatchObject({
      ok: false,
      trouble: { place: 'sheet slips, observations[0].sure.u' },
    });
  });

  test('[O7] the confirmation is kept with the case, and saving it anew says nothing was corrected', async () => {
    const sheet = { ...sheetOf(exducer(5720, { confirmed: true })), id: asId<Sheet['id']>('kept') };
    expect(await ask('sheets.save', { sheet, who: 'Marit', madeAgainst: null })).toMatchObject({ ok: true });
    expect(await ask('sheets.open', { id: 'kept' })).toMatchObject({ ok: true, value: { sheet: { observations: [{ confirmed: true }] } } });
    expect(await ask('cases.open', { sheet: 'kept', asOf: null })).toMatchObject({
      ok: true,
      value: { history: [{ sheet: { observations: [{ confirmed: true }] } }] },
    });
    const text = await ask('sheets.write', { sheet });
    expect(text.ok && (text.value as unknown as string)).toContain('"confirmed": true');
  });
});

describe('[O7] an entry is asked about before it goes on the sheet', () => {
  const slip = async (sheet: Sheet, { feature, value, sure }: Observation): Promise<Slip> => {
    const reply = await ask('entry.slip', { sheet, feature, value, sure });
    if (!reply.ok) throw new Error(reply.trouble.sentence);
    return reply.value as unknown as Slip;
  };
  const seen: Sure = { kind: 'seen' };
  const stamped = (feature: string, text: string | null, sure: Sure = seen) => entry(`nameplate-${feature}`, { kind: 'mark', text }, sure);

  test('[O7] by its figures', async () => {
    expect(await slip(blank, exducer(57.2))).toEqual({ kind: 'plausible' });
    expect(await slip(blank, exducer(5720))).toMatchObject({
      kind: 'implausible',
      likely: [{ how: 'decimal point', value: { kind: 'measure', value: 57.2 } }],
    });
    expect(await slip(blank, exducer(-3))).toMatchObject({ kind: 'impossible' });
  });

  test('[O5] a number whose check digit is wrong may have been misread, and so may one the plate’s maker makes none of', async () => {
    const serial = (text: string, sure: Sure = seen) => stamped('serial-text', text, sure);
    const right = 'R 0307 41377 2';
    expect(await slip(blank, serial(right))).toEqual({ kind: 'plausible' });
    expect(await slip(blank, serial('R 0307 41377 3'))).toMatchObject({
      kind: 'implausible',
      likely: [],
      sentence: expect.stringMatching(
        /but for its check digit: 3 stands where the figures before it give 2\. One of them may have been misread\.$/,
      ),
    });
    // A number nobody’s pattern makes is held against nobody, until the plate says whose it is.
    const strange = serial('?? 1');
    expect(await slip(blank, strange)).toEqual({ kind: 'plausible' });
    const named = sheetOf(stamped('trade-name', 'Lisle-Merrowby'));
    expect(await slip(named, strange)).toMatchObject({
      kind: 'implausible',
      sentence: expect.stringMatching(/makes no serial numbers like “\?\? 1”\. A sign may have been misread\.$/),
    });
    expect(await slip(named, serial(right))).toEqual({ kind: 'plausible' });
    expect(await slip(named, serial('R 0307 41377 3', { kind: 'told' })), 'what is told is a claim').toEqual({ kind: 'plausible' });
    expect(await slip(named, stamped('serial-text', null))).toEqual({ kind: 'plausible' });
  });

  test('[O5] the number being changed is not held against itself', async () => {
    const wrong = stamped('serial-text', 'R 0307 41377 3');
    expect(await slip(sheetOf(wrong), stamped('serial-text', 'R 0307 41377 2'))).toEqual({ kind: 'plausible' });
  });

  test('[O5] a plate that says so is refused nowhere: it may be forged', async () => {
    expect(await ask('verdict.of', { sheet: sheetOf(stamped('serial-text', 'R 0307 41377 3')) })).toMatchObject({ ok: true });
  });
});

test('[P3] [O7] mending asks nobody: a figure that was kept before anybody was asked about it is judged as it stands, what the atlas does not know is not', async () => {
  const { keep } = mendSetting('', new Date('2026-03-04T12:00:00.000Z'));
  expect(await keep(store, { ...sheetOf(exducer(5720)), id: asId('mended') })).toMatchObject({ ok: true, value: { id: 'mended' } });
  expect(await store.cases.open(asId('mended'), null)).toMatchObject({ ok: true, value: { history: [{ sheet: { id: 'mended' } }] } });
  const unknown = { ...exducer(57.2), feature: asId('cast-letters-nobody-knows') } as Observation;
  expect(await keep(store, { ...sheetOf(unknown), id: asId('strange') })).toMatchObject({ ok: false, trouble: { code: 'sheet-unknown' } });
});
