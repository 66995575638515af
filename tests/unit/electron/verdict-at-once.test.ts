import { expect, test } from 'vitest';
import { answerAtOnce } from '../../../electron/desk/verdict-at-once.ts';
import { answer, type CompiledAtlas, compileAtlas, type NameId, type Sheet, type Status } from '../../../reasoner/index.ts';
import { demoPack, expandCode, freshStore, valueIn, vocabularyPack } from '../db/kit.ts';

/** Every found unit of the demo, after each of its entries. */
const inTheMaking = async (): Promise<{ readonly atlas: CompiledAtlas; readonly sheets: readonly Sheet[] }> => {
  const store = await freshStore({ expandCode });
  for (const pack of [vocabularyPack, demoPack]) valueIn(await store.packs.load(pack));
  const found: Sheet[] = [];
  for (const { id, kind } of valueIn(await store.sheets.list())) if (kind === 'found') found.push(valueIn(await store.sheets.open(id)));
  return {
    atlas: compileAtlas(await store.atlas.read()),
    sheets: found.flatMap((sheet) =>
      [...sheet.observations.keys(), sheet.observations.length].map((n) => ({ ...sheet, observations: sheet.observations.slice(0, n) })),
    ),
  };
};

test('[B7] a verdict told at once counts every name judged, and holds those it speaks of, as they were judged', async () => {
  const { atlas, sheets } = await inTheMaking();
  let judged = 0;
  for (const sheet of sheets) {
    const whole = answer(atlas, sheet);
    const told = answerAtOnce(whole);
    if (whole.kind === 'contradiction' || told.kind === 'contradiction') {
      expect(told).toBe(whole);
      continue;
    }
    judged += 1;
    const all = new Map(whole.names.map((one) => [one.name.id, one]));
    for (const one of told.names) expect(all.get(one.name.id)).toBe(one);
    const of = (wanted: Status) => whole.names.filter(({ status }) => status === wanted).length;
    expect(told.counts).toEqual({ stands: of('stands'), open: of('open'), 'ruled out': of('ruled out') });
    // Whatever the answer says of a name by its id, the window says by its text; of those still open it only counts.
    const { names, open: _, slots: __, ...rest } = told;
    const kept = new Set<string>(names.map(({ name }) => name.id));
    const texts = JSON.stringify(rest).matchAll(/"((?:[^"\\]|\\.)*)"/g);
    const spokenOf = [...texts].map(([quoted]) => JSON.parse(quoted) as NameId).filter((text) => all.has(text));
    expect(spokenOf.filter((id) => !kept.has(id))).toEqual([]);
    for (const { name, conflicts } of whole.names) if (conflicts !== null) expect(kept).toContain(name.id);
    expect(kept.size).toBeLessThan(20);
  }
  expect(judged).toBeGreaterThan(100);
});
