import { describe, expect, test } from 'vitest';
import type { FeatureId, Part, PartId } from '../../../reasoner/index.ts';
import { demoPack } from './demo-atlas.ts';

const byId = new Map(demoPack.parts.map((part) => [part.id, part]));
const partOf = (id: PartId | undefined): Part | undefined => (id === undefined ? undefined : byId.get(id));

/** From a part back to the first issue it took the place of. */
const chainOf = (part: Part): readonly PartId[] => {
  const before = partOf(part.supersedes);
  return before === undefined ? [part.id] : [...chainOf(before), part.id];
};

describe('[A5] facts of parts', () => {
  test('[A5] every part has every dimension of its mating faces, or says it is not known', () => {
    for (const part of demoPack.parts) {
      const faces = demoPack.features.filter((feature) => feature.slot === part.slot && feature.port !== undefined);
      expect(
        faces.filter((feature) => part.facts[feature.id] === undefined).map((feature) => feature.id),
        part.id,
      ).toEqual([]);
    }
  });

  test('[A5] some dimensions are honestly not known, and of some features nothing is said', () => {
    const facts = demoPack.parts.flatMap((part) => Object.values(part.facts));
    const unknown = facts.filter((fact) => fact.kind === 'not known').length;
    expect(unknown).toBeGreaterThan(20);
    expect(unknown / facts.length).toBeLessThan(0.02);
    expect(
      demoPack.parts.some((part) => demoPack.features.some(({ slot, id }) => slot === part.slot && part.facts[id] === undefined)),
    ).toBe(true);
  });

  test('[A5] a fitted welded outlet is on no part: it shows modification, not origin (common practice, no source)', () => {
    const feature = 'compressor-housing-welded-outlet' as FeatureId;
    expect(demoPack.features.some((each) => each.id === feature)).toBe(true);
    expect(demoPack.parts.filter((part) => part.facts[feature] !== undefined)).toEqual([]);
  });

  test('[F3] pilots of housings are given by ISO 286 codes, expanded on reading', () => {
    const coded = demoPack.parts
      .flatMap((part) => Object.values(part.facts))
      .filter((fact) => fact.kind === 'measure' && fact.code !== undefined);
    expect(coded.length).toBeGreaterThan(100);
    for (const fact of coded) expect(fact.kind === 'measure' && fact.upper > fact.lower).toBe(true);
  });
});

describe('[A1] parts and their numbers', () => {
  test('[A1] no two parts were sold under one number', () => {
    const numbers = demoPack.parts.flatMap((part) => part.numbers);
    expect(numbers.filter((number, at) => numbers.indexOf(number) !== at)).toEqual([]);
  });

  test('[A1] every part with a maker has a number, and a part without a maker is a pattern of another', () => {
    for (const part of demoPack.parts) {
      expect(part.maker === null ? part.patternOf !== undefined : part.numbers.length > 0, part.id).toBe(true);
    }
  });

  test('[A3] supersession runs in chains of three and more', () => {
    const lengths = demoPack.parts.map((part) => chainOf(part).length);
    expect(lengths.filter((length) => length === 3).length).toBeGreaterThan(5);
    expect(chainOf(byId.get('merrowby-journal-set-d' as PartId) as Part)).toEqual([
      'merrowby-journal-set',
      'merrowby-journal-set-b',
      'merrowby-journal-set-c',
      'merrowby-journal-set-d',
    ]);
  });

  test('[O4] no pattern part bears a maker’s name', () => {
    const names = demoPack.makers
      .flatMap((maker) => [maker.name, ...maker.tradeNames.map(({ name }) => name)])
      .map((name) => name.toLowerCase());
    for (const part of demoPack.parts) {
      if (part.maker !== null) continue;
      for (const fact of Object.values(part.facts)) {
        if (fact.kind === 'mark')
          expect(
            fact.anyOf.filter((text) => names.some((name) => text.toLowerCase().includes(name))),
            part.id,
          ).toEqual([]);
      }
    }
  });

  test('[A3] every part sits in a model, or takes the place of one that does', () => {
    const listed = new Set(demoPack.allowed.map(({ part }) => part));
    expect(demoPack.parts.filter((part) => !chainOf(part).some((id) => listed.has(id))).map((part) => part.id)).toEqual([]);
  });

  test('[A3] every model lists the nine slots of its maker’s drawing and, where its maker rivets one on, a nameplate', () => {
    const families = new Map(demoPack.families.map((family) => [family.id, family]));
    for (const model of demoPack.models) {
      const slots = new Set(demoPack.allowed.filter((each) => each.model === model.id).map(({ slot }) => slot));
      expect(slots.size, model.id).toBe(families.get(model.family)?.maker === null ? 9 : 10);
    }
  });
});

describe('[O5] nameplates', () => {
  const plates = demoPack.parts.filter((part) => part.slot === 'nameplate');

  test('[O5] each bears one number and one trade name of its maker, from years in which the maker traded under it', () => {
    for (const plate of plates) {
      const fact = (short: string) => plate.facts[`nameplate-${short}` as FeatureId];
      const [number, name, year] = [fact('number'), fact('trade-name'), fact('year')];
      const maker = demoPack.makers.find((each) => each.id === plate.maker);
      if (number?.kind !== 'mark' || name?.kind !== 'mark' || year?.kind !== 'count') throw new Error(`${plate.id} lacks its lettering`);
      expect(plate.numbers, plate.id).toEqual(number.anyOf);
      const era = maker?.tradeNames.find((each) => each.name === name.anyOf[0]);
      expect(era !== undefined && era.from <= year.from && year.to <= (era.to ?? 2026), `${plate.id} within its era`).toBe(true);
    }
  });

  test('[O5] all four of Merrowby’s names are found on its plates and on its castings', () => {
    const merrowby = demoPack.makers.find((maker) => maker.id === 'merrowby');
    const lettersOf = (feature: string) =>
      new Set(
        demoPack.parts.flatMap((part) => {
          const fact = part.facts[feature as FeatureId];
          return part.maker === 'merrowby' && fact?.kind === 'mark' ? fact.anyOf : [];
        }),
      );
    for (const { name } of merrowby?.tradeNames ?? []) {
      expect(lettersOf('nameplate-trade-name'), name).toContain(name);
      expect(lettersOf('compressor-housing-cast-name'), name).toContain(name);
    }
  });
});
