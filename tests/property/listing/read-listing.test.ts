import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Answer, answer, asId, type Observation, type ObservationId, readListing, type Sheet } from '../../../reasoner/index.ts';
import { demo, demoAtlas, demoPack } from '../../unit/seed/demo-atlas.ts';

const settings = { seed: 20261125, numRuns: 120 } as const;

/** Scraps a listing may be made of: the atlas's own words, sizes, numbers, and what only a seller says. */
const scrap = fc.oneof(
  fc.constantFrom(...demoAtlas.models.map(({ name }) => name)),
  fc.constantFrom(...demoAtlas.makers.flatMap(({ tradeNames }) => tradeNames.map(({ name }) => name))),
  fc.constantFrom(...demoAtlas.parts.flatMap(({ numbers }) => numbers)),
  fc.constantFrom(...demoAtlas.slots.map(({ name }) => name)),
  fc.constantFrom(...demoAtlas.features.flatMap(({ name, options = [] }) => [name, ...options.map((option) => option.name)])),
  fc.tuple(fc.integer({ min: 0, max: 14 }), fc.constantFrom('blades', 'full blades', 'bolts')).map(([count, of]) => `${count} ${of}`),
  fc
    .tuple(fc.integer({ min: 1, max: 9000 }), fc.constantFrom(' mm', ' in', '"', '°'))
    .map(([hundredths, unit]) => `${hundredths / 100}${unit}`),
  fc.constantFrom(...demoAtlas.models.map(({ name }) => `“${name}”`)),
  fc.constantFrom('no', 'genuine', 'not', '.', ',', '\n', '“', '2 1/4 in', '7+7 blades', 'İstanbul', '💨'),
  fc.string({ maxLength: 12 }),
);
const listing = fc.array(scrap, { maxLength: 25 }).map((scraps) => scraps.join(' '));

/** Every told reading of every find. */
const toldBy = (text: string): Observation[] =>
  readListing(demo, text).finds.flatMap(({ becomes }, find) =>
    becomes.flatMap((one, reading) =>
      one.kind === 'told'
        ? [
            {
              id: asId<ObservationId>(`told-${find}-${reading}`),
              slot: one.slot,
              feature: one.feature,
              value: one.value,
              sure: { kind: 'told' } as const,
            },
          ]
        : [],
    ),
  );

/** What no told word may change: every status, what is left in every slot, every conflict, contradictions. */
const judged = (of: Answer) =>
  of.kind === 'contradiction'
    ? of
    : {
        names: of.names.map(({ name, status, unsettled }) => [name.id, status, unsettled]),
        honest: of.honest,
        open: of.open,
        slots: of.slots,
        unit: of.unit,
      };

describe('readers of listings', () => {
  test('[O1] whatever a text says, its finds stand where they say they stand, do not overlap, and fit the atlas’s features', () => {
    fc.assert(
      fc.property(listing, (text) => {
        let last = 0;
        for (const { from, to, text: piece, becomes } of readListing(demo, text).finds) {
          expect(text.slice(from, to)).toBe(piece);
          expect(from).toBeGreaterThanOrEqual(last);
          expect(to).toBeGreaterThan(from);
          last = to;
          for (const one of becomes) {
            if (one.kind !== 'told') continue;
            const feature = demo.features.get(one.feature);
            expect([feature?.slot, feature?.kind]).toEqual([one.slot, one.value.kind]);
          }
        }
      }),
      { ...settings, numRuns: 400 },
    );
  });

  test('[O1] what a listing says is never evidence: every status, candidate and conflict is the same with it and without it', () => {
    const sheets = demoPack.sheets.filter(({ kind }) => kind === 'found');
    fc.assert(
      fc.property(fc.constantFrom(...sheets), listing, (sheet, text) => {
        const told: Sheet = { ...sheet, observations: [...sheet.observations, ...toldBy(text)] };
        expect(judged(answer(demo, told, { explain: 'none' }))).toEqual(judged(answer(demo, sheet, { explain: 'none' })));
      }),
      { ...settings, numRuns: 40 },
    );
  });

  test('[O1] a name, a number or a measure written into a listing by itself is found again', () => {
    fc.assert(
      fc.property(fc.constantFrom(...demoAtlas.models), ({ id, name, family }) => {
        if (demo.families.get(family)?.maker === null) return;
        const claims = readListing(demo, `For sale: ${name}, complete.`).finds.flatMap(({ becomes: [first] }) =>
          first.kind === 'claim' ? [first] : [],
        );
        expect(claims).toMatchObject([{ text: name, model: id }]);
      }),
      settings,
    );
    fc.assert(
      fc.property(fc.constantFrom(...demoAtlas.parts.filter(({ numbers }) => numbers.length > 0)), ({ id, numbers: [number = ''] }) => {
        const [find] = readListing(demo, `number ${number} (unused)`).finds;
        // Issues that are told apart by dots alone cannot be at the end of a sentence: all of them are offered.
        expect(find?.text).toBe(number.replace(/\.+$/, ''));
        const parts = find?.becomes.flatMap((one) => (one.kind === 'part number' ? one.parts.map((part) => part.id) : []));
        expect(parts).toContain(id);
      }),
      settings,
    );
  });
});
