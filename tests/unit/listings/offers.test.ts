import { describe, expect, test } from 'vitest';
import { itemsOfTable } from '../../../electron/desk/handed-in.ts';
import {
  answer,
  asId,
  blankSheet,
  judgeListings,
  type Listings,
  type ListingsItem,
  type ListingsRow,
  type Observation,
  type ObservationId,
  offerJudge,
  type Sheet,
  type SheetId,
  standings,
} from '../../../reasoner/index.ts';
import { writtenWithin } from '../../../reasoner/listings/told-as-seen.ts';
import { demo, demoAtlas } from '../seed/demo-atlas.ts';
import { forty } from './forty.ts';

const judged = (items: readonly ListingsItem[]): Listings => {
  const running = judgeListings(demo, items);
  let step = running.next();
  while (!step.done) step = running.next();
  return step.value;
};
const items = itemsOfTable(demo, { name: 'quay.csv', bytes: Buffer.from(forty), matching: null });
const { rows } = judged(items);
const at = (row: number): ListingsRow => rows.find(({ source }) => source === `quay.csv, row ${row}`) as ListingsRow;
const placeOf = (row: number): number => rows.indexOf(at(row));

describe('a table of listings', () => {
  test('[T1] every row that is not empty is a row of the list, whatever is wrong with another', () => {
    expect(rows).toHaveLength(40);
    expect(new Set(rows.map(({ source }) => source)).size).toBe(40);
  });

  test('[N6] what is no name of its maker fails before all else', () => {
    for (const row of [2, 3]) expect(at(row).standing).toBe('no name');
    expect(rows.slice(0, 2).map(({ source }) => source)).toEqual(['quay.csv, row 2', 'quay.csv, row 3']);
    expect(at(3).sentences[0]).toBe('“Petrel 13” is no name of Merrowby.');
    expect(at(4).standing).toBe('open');
    expect(at(4).sentences[0]).toBe('“Rowan V-12” is made as Tarnwick makes its names, but the atlas lists no such model.');
  });

  test('[O1] what its own words contradict is said as that, comes next, and nothing is ruled out by it', () => {
    expect(at(6).standing).toBe('own words against it');
    expect(at(6).sentences.slice(0, 2)).toEqual([
      'By its own words: the turbine wheel has 11 blades; every turbine wheel listed for Merrowby Petrel 13 Cartridge has 10 blades.',
      'So the name or the words are wrong; which, only a look tells, and nothing is ruled out before.',
    ]);
    expect(at(6).lookFirst).toBe('Look first at the turbine wheel: blade count (as received, 2 min).');
    expect(at(5).standing).toBe('open');
    expect(at(5).sentences).toEqual(['Nothing it says speaks against the name, and nothing it says proves it.']);
    expect(placeOf(3)).toBeLessThan(placeOf(6));
    expect(placeOf(6)).toBeLessThan(placeOf(5));
    expect(rows.filter(({ standing }) => standing === 'ruled out' || standing === 'stands')).toEqual([]);
  });

  test('[O1] water ports offered on a core that has none speak against the name', () => {
    const tern = demoAtlas.models.find(({ name }) => name === 'Tern 4');
    const housings = demo.data.features.find(({ name, slot }) => name === 'water ports' && slot === asId('bearing-housing'));
    expect([tern, housings].map((one) => one !== undefined)).toEqual([true, true]);
    expect(at(7).standing).toBe('own words against it');
    expect(at(7).sentences[0]).toContain('water ports');
  });

  test('[O6] what is told in two ways is used in neither', () => {
    expect(at(8).standing).toBe('open');
    expect(at(8).sentences).toContain('Of the turbine wheel its own words say both 10 blades and 9 blades: neither is used.');
    const rest = offerJudge(demo)(
      'x',
      offerOf('Tern 4. turbine wheel with 10 blades. turbine wheel with 9 blades. bearing housing: water ports yes'),
    );
    expect(rest.row.standing, 'what is told in one way is used all the same').toBe('own words against it');
  });

  test('[T1] a row without words is told with row and column; a price alone says nothing', () => {
    expect(at(9)).toMatchObject({ standing: 'unreadable', offer: { price: '450' } });
    expect(at(9).sentences).toEqual(['quay.csv, row 9, column C “Headline”: found nothing but a price, expected the words of a listing.']);
    expect(at(10).sentences).toEqual(['quay.csv, row 10, column C “Headline”: found nothing, expected the words of a listing.']);
  });

  test('[N5] of several names the one that fails least is judged, and that it can be one at most is said; a list of many is no claim', () => {
    expect(at(11).standing).toBe('open');
    expect(at(11).sentences[0]).toBe(
      'It is offered under two names, “Petrel 13 Cartridge” and “Rowan V-21”, and can be one at most. Judged is “Petrel 13 Cartridge”, which fails least.',
    );
    expect(at(12)).toMatchObject({ standing: 'nothing claimed', claimed: null });
    expect(at(12).sentences[0]).toMatch(/^It names 6: .*a list of what it may fit, and no claim\.$/);
    const later = offerJudge(demo)('x', offerOf('Petrel 13 Cartridge, Rowan V-21. turbine wheel with 11 blades')).row;
    expect([later.claimed, later.standing], 'the second fails less').toEqual(['Rowan V-21', 'open']);
    const two = offerJudge(demo)('x', offerOf('Petrel 13 Cartridge, Petrel 14 Cartridge')).row;
    expect([two.claimed, two.standing]).toEqual(['Petrel 13 Cartridge', 'open']);
  });

  test('[O1] price, link and columns nothing is made of are kept as they are told', () => {
    expect(at(13).offer).toEqual({
      price: '1.250,00',
      link: 'https://quay.example/13',
      carried: [{ heading: 'Seen on', text: 'fair' }],
    });
    expect(at(15).standing).toBe('nothing claimed');
  });

  test('[O7] a figure no such part has is not taken, and said with the likely slip', () => {
    expect(at(14).sentences.join(' ')).toContain('5720 mm” is not taken:');
  });

  test('[K1] what is alike stays in the order of its rows', () => {
    const alike = rows.filter(({ claimed }) => claimed === 'Skua 13 Cartridge').map(({ source }) => Number(source.match(/\d+$/)?.[0]));
    expect(alike).toEqual(Array.from({ length: 25 }, (_, n) => 17 + n));
    const order = rows.map(({ standing }) => standings.indexOf(standing));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
  });

  test('[O1] opened, a row is a sheet with the claim, what is told, and its story; judged by itself it is what the list says', () => {
    const item = items.find(({ source }) => source === 'quay.csv, row 6') as Extract<ListingsItem, { offer: unknown }>;
    const { sheet } = offerJudge(demo)(item.source, item.offer);
    expect(sheet.serial).toBe('40117');
    expect(sheet).toMatchObject({ title: 'Merrowby Petrel 13 Cartridge', claimed: 'Petrel 13 Cartridge', claimedMaker: 'merrowby' });
    expect(sheet.story).toContain('From a listing (quay.csv, row 6): Merrowby Petrel 13 Cartridge\nturbine wheel with 11 blades');
    expect(sheet.story).toContain('Price asked: 210\nLink: https://quay.example/6\nSeen on: shop');
    expect(sheet.observations.map(({ sure }) => sure.kind)).toEqual(['told']);
    expect(judged([{ source: 'x', sheet }]).rows[0]?.standing).toBe('own words against it');
  });
});

const offerOf = (words: string) => ({ row: 1, title: words, words, price: null, link: null, carried: [], notes: [] });
const told = (feature: Observation['feature'], slot: Observation['slot'], value: Observation['value'], n = 1): Observation => ({
  id: asId<ObservationId>(`o${n}`),
  slot,
  feature,
  value,
  sure: { kind: 'told' },
});

describe('its own words', () => {
  /**
   * The lists of the pack, read by themselves: a count that is told speaks against a model where every part its lists allow in a naming slot is known to have another. Parts come
   * to a list by supersession too, in any number of steps.
   */
  const superseding = (part: string): string[] =>
    demoAtlas.parts.flatMap(({ id, supersedes }) => (supersedes === part ? [id, ...superseding(id)] : []));
  const cases = demoAtlas.models.flatMap((model) =>
    demoAtlas.features
      // What an operation may have left, another count of bolts, speaks against nothing (O2).
      .filter(({ id, kind }) => kind === 'count' && !JSON.stringify(demoAtlas.operations).includes(`"${id}"`))
      .filter(({ slot }) => demo.data.slots.find(({ id }) => id === slot)?.group !== 'plate')
      .flatMap((feature) => {
        const listed = model.allowed.filter(({ slot }) => slot === feature.slot);
        // A slot of service parts alone makes no name; a list that is not whole rules nothing out.
        if (listed.every(({ role }) => role === 'service') || model.openEnded?.includes(feature.slot)) return [];
        const parts = new Set(listed.flatMap(({ part }) => [part as string, ...superseding(part)]));
        const facts = [...parts].map((id) => demoAtlas.parts.find((part) => part.id === id)?.facts[feature.id]);
        const known = facts.flatMap((fact) => (fact?.kind === 'count' ? [fact] : []));
        if (known.length === 0 || known.length < facts.length) return [];
        const one = known[0]?.from ?? 0;
        return [one, one + 1].map((count) => ({
          model,
          feature,
          count,
          against: known.every(({ from, to }) => count < from || count > to),
        }));
      }),
  );

  test('[O1] [K1] a count speaks against a name just where every part the lists allow there has another', () => {
    const some = cases.filter((_, n) => n % 13 === 0);
    expect(some.length).toBeGreaterThan(15);
    expect(new Set(some.map(({ against }) => against)).size).toBe(2);
    for (const { model, feature, count, against } of some) {
      const maker = demoAtlas.families.find(({ id }) => id === model.family)?.maker ?? null;
      if (maker === null) continue;
      const sheet: Sheet = {
        ...blankSheet(asId<SheetId>('x')),
        claimed: model.name,
        claimedMaker: maker,
        observations: [told(feature.id, feature.slot, { kind: 'count', from: count, to: count })],
      };
      const [row] = judged([{ source: 'x', sheet }]).rows;
      const bare = answer(demo, { ...sheet, observations: [] });
      expect(bare.kind === 'verdict' ? bare.claim?.status : null, `${model.name} alone`).toBe('open');
      expect(row?.standing, `${model.name}, ${feature.id} ${count}`).toBe(against ? 'own words against it' : 'open');
    }
  });

  test('[O2] a size that is told is as close as it is written, in mm or inches, no closer than its instrument and no rougher than half a millimetre or 2 %', () => {
    const feature = { ...demo.data.features[0], unit: 'mm', resolution: 0.01 } as never;
    expect(writtenWithin(feature, 57)).toBeCloseTo(1, 6);
    expect(writtenWithin(feature, 57.2)).toBeCloseTo(0.1, 6);
    expect(writtenWithin(feature, 57.23)).toBeCloseTo(Math.max(0.01, 0.02 / Math.sqrt(3)), 6);
    expect(writtenWithin(feature, 2.25 * 25.4), 'two and a quarter inches').toBeCloseTo(0.254, 6);
    expect(writtenWithin(feature, 25.4), 'one inch').toBeCloseTo(0.508, 6);
    expect(writtenWithin(feature, 7)).toBeCloseTo(0.5, 6);
    expect(writtenWithin({ ...(feature as object), unit: 'deg' } as never, 25.4)).toBeCloseTo(0.1, 6);
  });
});
