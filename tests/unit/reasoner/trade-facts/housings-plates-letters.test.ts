import { beforeAll, describe, expect, it } from 'vitest';
import { asId, type SlotId, type Verdict } from '../../../../reasoner/index.ts';
import { Counter, candidatesIn, nameOf } from './counter.ts';

/* Every fact here is common practice, no source; told with the demo world's families. */

let counter: Counter;
beforeAll(async () => {
  counter = await Counter.open();
});

const ticket = (verdict: Verdict): string => [...verdict.ticket.may, ...verdict.ticket.mustNot].map(({ text }) => text).join('\n');
const statuses = (verdict: Verdict): readonly string[] => verdict.names.map(({ name, status }) => `${name.id}: ${status}`).sort();

/** A true Petrel 11 as far as its core and turbine housing can be seen. */
const petrel11 = {
  'compressor-wheel-mark': 'Pe woad',
  'compressor-wheel-full-blades': 6,
  'compressor-wheel-exducer': [54, 0.025],
  'bearing-housing-cast-mark': 'HULL 6 water a',
  'bearing-housing-water-ports': true,
  'turbine-wheel-mark': 'Pe middle',
  'turbine-wheel-blades': 10,
  'turbine-wheel-cutback': 'strong',
} as const;

describe('housings (common practice, no source)', () => {
  it('[S1] (a) changing a compressor housing takes minutes: less than the wheel beneath it, and far less than the core', () => {
    const unit = counter.unit({ ...petrel11, 'compressor-housing-cast-name': 'TARNWICK' });
    const { status, swaps } = counter.why(unit, 'model with service parts replaced', 'petrel-11-cartridge');
    expect(status).toBe('ruled out');
    expect(swaps?.found.map(({ slots }) => slots)).toEqual([['compressor-housing']]);
    const minutes = swaps?.found[0]?.minutes ?? Number.NaN;
    expect(minutes).toBeLessThanOrEqual(30);
    const wheel = counter.unit({ 'compressor-wheel-mark': 'Pe mauve' });
    const other = counter.why(wheel, 'model with service parts replaced', 'petrel-11-cartridge').swaps?.found[0];
    expect(other?.minutes).toBeGreaterThan(minutes);
  });

  it('[O4] [N5] (a) the name cast on it says nothing of the core: neither the cores it may sit on nor their copies are ruled out, and none is named', () => {
    const verdict = counter.verdict(counter.unit({ 'compressor-housing-cast-name': 'MERROWBY' }));
    for (const model of counter.models('northquay', 'breakwater'))
      expect([model, nameOf(verdict, 'pattern core', model).status]).toEqual([model, 'open']);
    for (const model of counter.models('petrel', 'skua')) expect([model, nameOf(verdict, 'core', model).status]).toEqual([model, 'open']);
    expect(verdict.names.filter(({ name, status }) => name.maker !== null && status === 'stands')).toEqual([]);
    expect(verdict.ticket.mustNot.some(({ text }) => text.includes('says nothing of the rest'))).toBe(true);
  });

  it('[N1] (j) a welded outlet shows what was done to a housing, not where it comes from: no status changes', () => {
    const plain = counter.verdict(counter.unit({ ...petrel11, 'compressor-housing-cast-mark': 'woad' }));
    const welded = counter.verdict(
      counter.unit({ ...petrel11, 'compressor-housing-cast-mark': 'woad', 'compressor-housing-welded-outlet': true }),
    );
    expect(statuses(welded)).toEqual(statuses(plain));
    expect(candidatesIn(welded, 'compressor-housing')).toEqual(candidatesIn(plain, 'compressor-housing'));
  });
});

describe('the plate (common practice, no source)', () => {
  const merrowby = () => {
    const maker = counter.atlas.makers.find(({ id }) => id === 'merrowby');
    if (maker === undefined) throw new Error('the demo atlas has no Merrowby');
    return maker;
  };
  const plateFindings = (verdict: Verdict) => verdict.findings.filter(({ kind }) => kind === 'plate');

  it('[O5] (h) any of the maker’s successive trade names may stand on it, each in its years and not in another’s', () => {
    const names = merrowby().tradeNames;
    expect(names.length).toBeGreaterThanOrEqual(4);
    for (const { name, from, to } of names) {
      const last = to ?? 2020;
      const models = counter.atlas.models.filter((model) => {
        const family = counter.atlas.families.find(({ id }) => id === model.family);
        return family?.maker === 'merrowby' && (model.from ?? 0) <= last && (model.to ?? 9999) >= from;
      });
      const year = Math.max(from, Math.min(...models.map((model) => model.from ?? from)));
      const good = counter.verdict(counter.unit({ 'nameplate-trade-name': name, 'nameplate-year': year }));
      expect([name, year, plateFindings(good)]).toEqual([name, year, []]);
      const wrong = to === null ? from - 5 : to + 5;
      const bad = counter.verdict(counter.unit({ 'nameplate-trade-name': name, 'nameplate-year': wrong }));
      expect([name, wrong, plateFindings(bad).length > 0]).toEqual([name, wrong, true]);
    }
  });

  it('[O5] [N1] (h) its number is the part number of one model: the plates of others fall out', () => {
    const numberOf = (model: string): string => {
      const plate = counter.atlas.models.find(({ id }) => id === model)?.allowed.find(({ slot }) => slot === 'nameplate');
      const fact = Object.entries(counter.atlas.parts.find(({ id }) => id === plate?.part)?.facts ?? {}).find(
        ([id]) => id === 'nameplate-number',
      )?.[1];
      if (fact?.kind !== 'mark' || fact.anyOf[0] === undefined) throw new Error(`${model} has no plate number`);
      return fact.anyOf[0];
    };
    const verdict = counter.verdict(counter.unit({ 'nameplate-number': numberOf('petrel-13-cartridge') }));
    expect(nameOf(verdict, 'model', 'petrel-13-cartridge').status).toBe('open');
    expect(nameOf(verdict, 'model', 'petrel-11-cartridge').status).toBe('ruled out');
    // The plate is riveted to the bearing housing; it proves no wheel.
    expect(nameOf(verdict, 'model', 'petrel-13-cartridge').unsettled).toEqual(
      expect.arrayContaining(['turbine-wheel', 'compressor-wheel']),
    );
  });

  it('[N3] (h) without its plate a unit of a maker with the plate rule cannot carry the model’s name', () => {
    const absent = [asId<SlotId>('nameplate')];
    const verdict = counter.verdict(counter.unit({ ...petrel11 }, { absent }));
    expect(merrowby().plateRule).toBe(true);
    expect(nameOf(verdict, 'model with service parts replaced', 'petrel-11-cartridge').status).toBe('ruled out');
    expect(nameOf(verdict, 'core', 'petrel-11-cartridge').status).toBe('open');
  });
});

describe('letters (common practice, no source)', () => {
  /** What tells the Northquay copy from a Petrel, letters aside. */
  const copy = {
    'bearing-housing-water-ports': false,
    'bearing-housing-rib-pattern': 'ring',
    'bearing-housing-bored-for': 'journal',
    'compressor-wheel-full-blades': 7,
    'compressor-wheel-splitter-blades': 7,
    'turbine-wheel-blades': 11,
    'turbine-wheel-weld': 'friction',
  } as const;

  it('[O4] [W1] (i) an unmarked copy is non-genuine, and the text says it is not to be called counterfeit', () => {
    const verdict = counter.verdict(counter.unit({ ...copy, 'bearing-housing-cast-name': null }));
    expect(verdict.findings.filter(({ kind }) => kind === 'mark')).toEqual([]);
    expect(nameOf(verdict, 'pattern core', 'northquay-13').status).not.toBe('ruled out');
    const clauses = verdict.ticket.mustNot.filter(({ text }) => text.includes('counterfeit')).map(({ text }) => text);
    expect(clauses).toHaveLength(1);
    expect(clauses[0]).toMatch(/^This unit must not be described as counterfeit: .* is called non-genuine\.$/);
    expect(verdict.ticket.may.map(({ text }) => text).join('\n')).not.toContain('counterfeit');
  });

  it('[O4] [W1] (i) the same copy with the maker’s name cast on it is counterfeit, and is not to be called merely non-genuine', () => {
    const verdict = counter.verdict(counter.unit({ ...copy, 'bearing-housing-cast-name': 'MERROWBY', 'bearing-housing-cast-mark': null }));
    const marks = verdict.findings.filter((finding) => finding.kind === 'mark');
    expect(marks.map(({ slot, reading }) => [slot, reading])).toEqual([['bearing-housing', 'maker’s name on a pattern part']]);
    expect(marks[0]?.sentence).toContain('counterfeit');
    expect(marks[0]?.wouldBe.length).toBeGreaterThan(0);
    expect(verdict.ticket.mustNot.some(({ text }) => text.includes('merely non-genuine'))).toBe(true);
    expect(verdict.ticket.mustNot.some(({ text }) => text.includes('as counterfeit'))).toBe(false);
  });

  it('[W1] (i) of a true unit neither word is used', () => {
    expect(ticket(counter.verdict(counter.unit(petrel11)))).not.toMatch(/counterfeit|non-genuine/);
  });
});
