import { beforeAll, describe, expect, it } from 'vitest';
import { asId, fitOf, readName } from '../../../../reasoner/index.ts';
import { Counter, candidatesIn, familyNames, nameOf, namesOf } from './counter.ts';

/* Every fact here is common practice, no source; told with the demo world's families. */

let counter: Counter;
beforeAll(async () => {
  counter = await Counter.open();
});

describe('a family built only on ball-bearing cartridges (common practice, no source)', () => {
  it('[N1] (b) a journal set alone rules out every Petrel name, on every rung', () => {
    const verdict = counter.verdict(counter.unit({ 'bearing-set-kind': 'journal' }));
    const petrels = namesOf(verdict, counter.models('petrel'));
    expect(petrels.length).toBeGreaterThan(0);
    for (const { name, status } of [...petrels, ...familyNames(verdict, 'petrel')])
      expect([name.text, status]).toEqual([name.text, 'ruled out']);
    expect(nameOf(verdict, 'model with service parts replaced', 'tern-7').status).toBe('open');
  });

  it('[K1] (b) the proof is the bearing set and the name’s demand on it, nothing else', () => {
    const unit = counter.unit({ 'bearing-set-kind': 'journal' });
    const { name, conflicts } = counter.why(unit, 'model with service parts replaced', 'petrel-13-cartridge');
    expect(conflicts?.found[0]?.members).toHaveLength(2);
    expect(conflicts?.found[0]?.members).toEqual(
      expect.arrayContaining([
        { kind: 'observation', observation: 'bearing-set-kind' },
        { kind: 'rule', name: name.id, slot: 'bearing-set' },
      ]),
    );
  });

  it('[N6] (b) its name without the cartridge word is no name, and the nearest that exists has the word', () => {
    const reading = readName(counter.compiled, 'Petrel 13', asId('merrowby'));
    expect(reading.verdict).toBe('no name of this maker');
    expect(reading.nearest[0]).toBe('petrel-13-cartridge');
    expect(readName(counter.compiled, 'Petrel 13 Cartridge', asId('merrowby')).model).toBe('petrel-13-cartridge');
    // Of a family that has both, the bare name is a name.
    expect(readName(counter.compiled, 'Gannet 12', asId('merrowby')).model).toBe('gannet-12');
  });

  it('[N1] (c) its bearing housing is water cooled: one without water ports rules it out, and the ports alone bring no name back', () => {
    const dry = counter.verdict(counter.unit({ 'bearing-housing-water-ports': false }));
    for (const { name, status } of namesOf(dry, counter.models('petrel', 'skua')))
      expect([name.text, status]).toEqual([name.text, 'ruled out']);
    const wet = counter.verdict(counter.unit({ 'bearing-housing-water-ports': true }));
    expect(nameOf(wet, 'model', 'petrel-13-cartridge').status).toBe('open');
    expect(nameOf(wet, 'model', 'tern-7').status).toBe('ruled out');
  });
});

describe('one oil-only bearing housing and one shaft pattern under five families (common practice, no source)', () => {
  const five = ['shearwater', 'dunlin', 'fulmar', 'tern', 'gannet'];

  it('[N2] (d) housing and shaft leave all five families in play and settle none', () => {
    const verdict = counter.verdict(
      counter.unit({ 'bearing-housing-cast-mark': 'HULL 5 oil', 'shaft-mark': 'MAST 5', 'bearing-set-kind': 'journal' }),
    );
    expect(candidatesIn(verdict, 'shaft')).toHaveLength(1);
    for (const family of five) {
      const open = namesOf(verdict, counter.models(family)).filter(({ name, status }) => name.rung === 'model' && status === 'open');
      expect([family, open.length > 0]).toEqual([family, true]);
    }
    expect(verdict.names.filter(({ name, status }) => name.rung !== 'parts' && status === 'stands')).toEqual([]);
  });

  it('[N3] (d) the turbine head alone does not name the core: three heads on one shaft, and one head on two shafts', () => {
    const { parts } = counter.atlas;
    const drop = (head: string, shaft: string) =>
      fitOf(counter.compiled, asId('turbine-wheel-and-shaft'), asId(head), asId(shaft)).verdict === 'drops in';
    const heads = parts.filter(({ slot }) => slot === 'turbine-wheel').map(({ id }) => id);
    expect(heads.filter((head) => drop(head, 'merrowby-journal-shaft')).length).toBeGreaterThanOrEqual(3);
    const shafts = parts.filter(({ slot }) => slot === 'shaft').map(({ id }) => id);
    expect(heads.some((head) => shafts.filter((shaft) => drop(head, shaft)).length >= 2)).toBe(true);

    const verdict = counter.verdict(
      counter.unit({ 'turbine-wheel-mark': 'Gannet small', 'turbine-wheel-blades': 10, 'turbine-wheel-cutback': 'half' }),
    );
    for (const model of ['gannet-12', 'gannet-12-cartridge']) {
      const core = nameOf(verdict, 'core', model);
      expect(core.status).toBe('open');
      expect(core.unsettled).toEqual(expect.arrayContaining(['shaft', 'bearing-housing']));
    }
  });
});

describe('cartridge shafts and journal shafts (common practice, no source)', () => {
  it('[F1] (e) six stepped diameters and two pressed inner races, and they never change places', () => {
    const { parts } = counter.atlas;
    const fact = (part: (typeof parts)[number], feature: string) => part.facts[asId<keyof typeof part.facts>(feature)];
    const kindOf = (part: (typeof parts)[number], feature: string): string => {
      const found = fact(part, feature);
      return found?.kind === 'choice' ? (found.anyOf[0] ?? '') : '';
    };
    const shafts = parts.filter(({ slot }) => slot === 'shaft');
    const sets = parts.filter(({ slot }) => slot === 'bearing-set');
    const onCartridge = shafts.filter((shaft) => kindOf(shaft, 'shaft-made-for') === 'cartridge');
    expect(onCartridge.length).toBeGreaterThan(0);
    for (const shaft of onCartridge) {
      expect(fact(shaft, 'shaft-steps')).toEqual({ kind: 'count', from: 6, to: 6 });
      expect(fact(shaft, 'shaft-inner-races')).toEqual({ kind: 'presence', present: true });
    }
    for (const shaft of shafts) {
      for (const set of sets) {
        if (kindOf(shaft, 'shaft-made-for') === kindOf(set, 'bearing-set-kind')) continue;
        const { verdict } = fitOf(counter.compiled, asId('shaft-and-bearing-set'), shaft.id, set.id);
        expect([shaft.id, set.id, verdict]).toEqual([shaft.id, set.id, 'will not fit']);
      }
    }
  });

  it('[J1] (e) as found, inner races on the shaft say that a cartridge is inside, before anyone has seen it', () => {
    const verdict = counter.verdict(counter.unit({ 'shaft-inner-races': true }));
    const kinds = candidatesIn(verdict, 'bearing-set').map(
      (id) => counter.atlas.parts.find((part) => part.id === id)?.facts[asId<never>('bearing-set-kind')],
    );
    expect(kinds.length).toBeGreaterThan(0);
    for (const kind of kinds) expect(kind).toEqual({ kind: 'choice', anyOf: ['cartridge'] });
  });
});

describe('the high-speed balancing rig (common practice, no source)', () => {
  it('[J1] [S1] (k) readings that will not repeat put the bearings in doubt and nothing else; a new bearing set would settle it', () => {
    const seen = {
      'bearing-housing-cast-name': 'VELDMARK',
      'bearing-housing-water-ports': true,
      'compressor-wheel-mark': 'JO',
      'turbine-wheel-blades': 10,
    };
    const before = counter.verdict(counter.unit(seen));
    const after = counter.verdict(counter.unit({ ...seen, 'bearing-set-repeats': false }));
    expect(after.slots.filter(({ doubtful }) => doubtful).map(({ slot }) => slot)).toEqual(['bearing-set']);
    for (const slot of ['compressor-wheel', 'turbine-wheel', 'compressor-housing', 'turbine-housing', 'nameplate']) {
      for (const part of candidatesIn(before, slot)) expect(candidatesIn(after, slot)).toContain(part);
    }
    expect(nameOf(before, 'model with service parts replaced', 'gneiss-jo').status).toBe('open');
    const { swaps } = counter.why(
      counter.unit({ ...seen, 'bearing-set-repeats': false }),
      'model with service parts replaced',
      'gneiss-jo',
    );
    expect(swaps?.found.map(({ slots }) => slots)).toEqual([['bearing-set']]);
  });
});
