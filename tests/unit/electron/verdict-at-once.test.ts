import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Page } from '../../../electron/bridge/verdict-calls.ts';
import { answerAtOnce } from '../../../electron/desk/verdict-at-once.ts';
import {
  answer,
  answerInBrief,
  type CompiledAtlas,
  compileAtlas,
  explain,
  type InBrief,
  type NameId,
  type Sheet,
  type Status,
} from '../../../reasoner/index.ts';
import { reasonsApart } from '../../../reasoner/plain/reasons-apart.ts';
import { type DemoDesk, openDemoDesk } from '../../bench/demo-desk.ts';
import { largerAtlas } from '../../bench/larger-atlas.ts';
import { valueIn } from '../db/kit.ts';

let demo: DemoDesk;
let desk: DemoDesk['desk'];
let atlas: CompiledAtlas;
let found: readonly Sheet[];
/** Every found unit of the demo after each of its entries, judged. */
let inTheMaking: readonly InBrief[];

beforeAll(async () => {
  demo = await openDemoDesk();
  desk = demo.desk;
  found = demo.sheets.filter(({ kind }) => kind === 'found');
  atlas = compileAtlas(demo.atlas);
  inTheMaking = found.flatMap((sheet) =>
    [...sheet.observations.keys(), sheet.observations.length].map((n) =>
      answerInBrief(atlas, { ...sheet, observations: sheet.observations.slice(0, n) }),
    ),
  );
});
afterAll(() => demo.close());

const bytesOf = (value: unknown): number => Buffer.byteLength(JSON.stringify(value));

test('[B7] a verdict told at once counts all it speaks of, and holds the names it speaks of, as they were judged', () => {
  let judged = 0;
  for (const judgedNow of inTheMaking) {
    const told = answerAtOnce(judgedNow.brief);
    const whole = judgedNow.whole();
    if (whole.kind === 'contradiction' || told.kind === 'contradiction') {
      expect(told).toBe(whole);
      continue;
    }
    judged += 1;
    const all = new Map(whole.names.map((one) => [one.name.id, one]));
    for (const { conflicts, swaps, ...one } of told.names) {
      expect(all.get(one.name.id)).toMatchObject(one);
      const own = all.get(one.name.id);
      expect([conflicts?.lines, swaps?.ways]).toEqual([own?.conflicts?.found.length, own?.swaps?.found.length]);
    }
    const of = (wanted: Status) => whole.names.filter(({ status }) => status === wanted).length;
    expect(told.counts).toEqual({ stands: of('stands'), open: of('open'), 'ruled out': of('ruled out') });
    expect(told.open).toBe(whole.open.length);
    for (const [at, slot] of whole.slots.entries())
      expect(told.slots[at]).toMatchObject({
        slot: slot.slot,
        left: slot.candidates.length,
        only: slot.candidates.length === 1 ? slot.candidates[0] : null,
        removedByJoints: slot.removedByJoints.length,
        machined: slot.machined.length,
        silent: slot.silent.length,
      });
    // Whatever the answer says of a name by its id, the window says by its text.
    const kept = new Set<string>(told.names.map(({ name }) => name.id));
    const texts = JSON.stringify({ ...told, names: [] }).matchAll(/"((?:[^"\\]|\\.)*)"/g);
    const spokenOf = [...texts].map(([quoted]) => JSON.parse(quoted) as NameId).filter((text) => all.has(text));
    expect(spokenOf.filter((id) => !kept.has(id))).toEqual([]);
    expect(kept.size).toBeLessThan(20);
    expect(bytesOf(told)).toBeLessThan(20_000);
  }
  expect(judged).toBeGreaterThan(100);
});

test('[K1] of more conflicts than are told at once those are told that are counted aloud, and the first, in their order', () => {
  let cut = 0;
  for (const judgedNow of inTheMaking) {
    const told = answerAtOnce(judgedNow.brief);
    const whole = judgedNow.whole();
    if (whole.kind === 'contradiction' || told.kind === 'contradiction') continue;
    for (const { name, conflicts } of told.names) {
      const all = whole.names.find((one) => one.name.id === name.id)?.conflicts ?? null;
      if (conflicts === null || all === null || conflicts.found.length === all.found.length) continue;
      cut += 1;
      const places = conflicts.found.map((one) => all.found.indexOf(one));
      expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
      expect(places).toContain(0);
      expect(reasonsApart(conflicts).map((at) => places[at])).toEqual(reasonsApart(all));
      expect(conflicts.independent).toBe(all.independent);
    }
  }
  expect(cut).toBeGreaterThan(5);
});

test('[B7] over an atlas four times as large a verdict is told in hardly more bytes, though it speaks of four times as much', () => {
  const large = compileAtlas(largerAtlas(atlas.data, 4));
  for (const sheet of found.filter((_, i) => i % 6 === 1).flatMap((one) => [{ ...one, observations: one.observations.slice(0, 2) }, one])) {
    const [small, more] = [answerAtOnce(answerInBrief(atlas, sheet).brief), answerAtOnce(answerInBrief(large, sheet).brief)];
    if (more.kind === 'contradiction' || small.kind === 'contradiction') continue;
    expect(bytesOf(more)).toBeLessThan(20_000);
    expect(more.slots.reduce((sum, { listed }) => sum + listed, 0)).toBeGreaterThan(3 * 634);
  }
});

/** Every row, asked for so many at a time. */
const everyRow = async <Row>(ask: (rows: { from: number; count: number }) => Promise<Page<Row>>, count: number): Promise<Row[]> => {
  const rows: Row[] = [];
  for (;;) {
    const page = await ask({ from: rows.length, count });
    expect(page.rows.length).toBe(Math.min(count, page.count - rows.length));
    rows.push(...page.rows);
    if (rows.length === page.count) return rows;
  }
};

test('[B7] what is told at once in numbers can be read to its end, a page at a time: every part, name, reason and exchange', async () => {
  let [reasons, exchanged, beside] = [0, 0, 0];
  for (const sheet of found.filter((_, i) => i % 6 === 0)) {
    const whole = answer(atlas, sheet);
    if (whole.kind === 'contradiction') continue;
    const listed = await everyRow(
      async (rows) => valueIn(await desk['verdict.names']({ sheet, statuses: ['stands', 'open', 'ruled out'], text: '', ...rows })),
      70,
    );
    expect(listed).toEqual(whole.names.map(({ conflicts: _, swaps: __, ...name }) => name));
    for (const slot of whole.slots) {
      const parts = async (of: 'left' | 'beside' | 'machined' | 'silent') =>
        everyRow(async (rows) => valueIn(await desk['verdict.parts']({ sheet, slot: slot.slot, of, ...rows })), 40);
      expect((await parts('left')).map(({ part }) => part)).toEqual(slot.candidates);
      expect((await parts('beside')).map(({ part, because }) => ({ part, because }))).toEqual(slot.removedByJoints);
      expect((await parts('machined')).map(({ part }) => part)).toEqual(slot.machined.map(({ part }) => part));
      expect((await parts('silent')).map(({ part, features }) => ({ part, features }))).toEqual(slot.silent);
      for (const { part, name } of await parts('left')) expect(name).toBe(atlas.parts.get(part)?.name);
      beside += slot.removedByJoints.length;
    }
    const ruledOut = whole.names.find(({ status }) => status === 'ruled out')?.name.id;
    for (const name of [whole.claim?.name ?? ruledOut, ruledOut]) {
      if (name === undefined) continue;
      const { conflicts, swaps } = explain(atlas, sheet, name);
      const lines = await everyRow(async (rows) => valueIn(await desk['verdict.reasons']({ sheet, name, ...rows })), 30);
      expect(lines).toEqual(conflicts?.found ?? []);
      const ways = await everyRow(async (rows) => valueIn(await desk['verdict.swaps']({ sheet, name, ...rows })), 3);
      expect(ways.map(({ slots }) => slots)).toEqual((swaps?.found ?? []).map(({ slots }) => slots));
      for (const { slots, parts } of swaps?.found.slice(0, 4) ?? [])
        for (const choice of parts) {
          const rows = await everyRow(
            async (asked) => valueIn(await desk['verdict.replacements']({ sheet, name, slots, slot: choice.slot, ...asked })),
            5,
          );
          expect(rows.map(({ part }) => part)).toEqual(choice.parts);
          for (const need of choice.needs)
            for (const part of need.parts) expect(rows.find((row) => row.part === part)?.needs).toEqual(need.sentences);
          exchanged += rows.length;
        }
      reasons += lines.length;
    }
    const own = await everyRow(async (rows) => valueIn(await desk['verdict.reasons']({ sheet, name: null, ...rows })), 30);
    expect(own).toEqual(whole.unit.found);
  }
  expect(Math.min(reasons, exchanged, beside)).toBeGreaterThan(20);
});

test('[B7] names are found by every word typed, wherever it stands in them, without case; and counted by status among those found', async () => {
  const [sheet] = found as [Sheet];
  const ask = async (text: string, statuses: Status[] = ['stands', 'open', 'ruled out']) =>
    valueIn(await desk['verdict.names']({ sheet, statuses, text, from: 0, count: 500 }));
  const all = await ask('');
  const some = await ask(' CORE  trel ');
  expect(some.count).toBeGreaterThan(0);
  const text = (name: string) => name.toLowerCase();
  expect(some.rows).toEqual(all.rows.filter(({ name }) => text(name.text).includes('core') && text(name.text).includes('trel')));
  expect(some.counts.stands + some.counts.open + some.counts['ruled out']).toBe(some.count);
  const open = await ask('core', ['open']);
  expect([open.count, open.counts]).toEqual([open.counts.open, (await ask('core')).counts]);
  expect((await ask('no such name')).count).toBe(0);
});
