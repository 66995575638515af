import { describe, expect, it } from 'vitest';
import {
  type Atlas,
  answer,
  compileAtlas,
  explain,
  type Model,
  type NameId,
  type Observation,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from './little-atlas.ts';

const verdictOf = (atlas: Atlas, observations: readonly Observation[], rest: Partial<Sheet> = {}): Verdict => {
  const found = answer(compileAtlas(atlas), sheetOf(observations, rest));
  if (found.kind !== 'verdict') throw new Error('contradicted');
  return found;
};
const nameIn = (verdict: Verdict, id: string) => verdict.names.find(({ name }) => name.id === id);
const statusIn = (verdict: Verdict, id: string) => nameIn(verdict, id)?.status;
const honestTexts = (verdict: Verdict) => verdict.names.filter(({ name }) => verdict.honest.includes(name.id)).map(({ name }) => name.text);

/** The little atlas with one of its models changed. */
const withModel = (id: string, change: (model: Model) => Partial<Model>, atlas = littleAtlas): Atlas => ({
  ...atlas,
  models: atlas.models.map((model) => (model.id === id ? { ...model, ...change(model) } : model)),
});
const without = (slot: string) => (model: Model) => ({ allowed: model.allowed.filter((entry) => entry.slot !== slot) });
const openEnded =
  (...slots: string[]) =>
  () =>
    ({ openEnded: slots as unknown as Model['openEnded'] }) as Partial<Model>;

const journal = chose('shaft.end', '6');
const cartridge = [chose('shaft.end', '7'), chose('shaft.weld', 'beam')];
const wholeCod = [measured('housing.bore', 40.6), blades(8), journal, marked('plate.number', '4-40')];
const wholeLing = [measured('housing.bore', 50.6), blades(6), ...cartridge, marked('plate.number', '5-50')];

describe('lists that are not whole', () => {
  it('[N3] [A7] a model without a part stands on nothing', () => {
    const atlas = withModel('cod-1', () => ({ allowed: [] }));
    const blank = verdictOf(atlas, []);
    expect(honestTexts(blank)).toEqual(['no name: a list of parts']);
    for (const id of ['model:cod-1', 'options:cod-1', 'service:cod-1', 'core:cod-1', 'family:cod', 'family-core:cod'])
      expect(statusIn(blank, id), id).toBe('open');
    for (const id of ['service:cod-1', 'family:cod']) expect(statusIn(verdictOf(atlas, wholeLing), id), id).toBe('open');
  });

  it('[N3] [A7] a core slot a model says nothing of keeps all its names from standing, and the atlas is said to lack it', () => {
    const atlas = withModel('cod-1', without('shaft'));
    const verdict = verdictOf(atlas, wholeCod);
    for (const id of ['model:cod-1', 'service:cod-1', 'all-parts:cod-1', 'core:cod-1', 'family:cod'])
      expect(statusIn(verdict, id), id).toBe('open');
    expect(nameIn(verdict, 'service:cod-1')).toMatchObject({ unsettled: [], lacks: ['shaft'] });
    expect(verdict.claim).toBeNull();
    const claimed = verdictOf(atlas, wholeCod, { claimed: 'Cod 1' });
    expect(claimed.claim?.sentences.join(' ')).toContain('the atlas does not say which shaft it may hold');
  });

  it('[N3] [A7] a housing slot a model says nothing of keeps only the names that speak of the housing from standing', () => {
    const verdict = verdictOf(withModel('cod-1', without('housing')), wholeCod);
    for (const id of ['model:cod-1', 'service:cod-1', 'all-parts:cod-1']) expect(statusIn(verdict, id), id).toBe('open');
    expect(statusIn(verdict, 'core:cod-1')).toBe('stands');
    expect(statusIn(verdict, 'family-core:cod')).toBe('stands');
  });

  it('[N1] [A7] what is not listed in an open-ended list rules no name out, and what is listed there in another role does', () => {
    const others = [measured('housing.bore', 50.6), blades(8), journal, marked('plate.number', '4-40')];
    const loose: Atlas = { ...littleAtlas, joints: [] };
    expect(statusIn(verdictOf(loose, others), 'service:cod-1')).toBe('ruled out');
    const open = withModel('cod-1', openEnded('housing'), loose);
    expect(statusIn(verdictOf(open, others), 'service:cod-1')).toBe('open');
    expect(nameIn(verdictOf(open, others), 'service:cod-1')).toMatchObject({ unsettled: [], lacks: ['housing'] });
    // The wide housing is listed, as an option: that it does not make the plain model is known.
    const wide = [measured('housing.bore', 41.1), blades(8), journal, marked('plate.number', '4-40')];
    expect(statusIn(verdictOf(open, wide), 'model:cod-1')).toBe('ruled out');
    expect(statusIn(verdictOf(open, wide), 'options:cod-1')).toBe('stands');
  });

  it('[N1] [A7] a part no list has rules out by a whole list and not by an open-ended one; an empty slot rules out by both', () => {
    const strange = [blades(11), journal];
    expect(statusIn(verdictOf(littleAtlas, strange), 'service:cod-1')).toBe('ruled out');
    const open = withModel('cod-1', openEnded('wheel'));
    expect(nameIn(verdictOf(open, strange), 'service:cod-1')).toMatchObject({ status: 'open', lacks: ['wheel'] });
    const empty = [journal];
    expect(statusIn(verdictOf(open, empty, { absent: ['wheel' as never] }), 'service:cod-1')).toBe('ruled out');
    const silent = withModel('cod-1', without('wheel'));
    expect(statusIn(verdictOf(silent, empty, { absent: ['wheel' as never] }), 'service:cod-1')).toBe('open');
  });

  it('[A7] cores are one name only where their lists and their openness are equal', () => {
    const twin = { ...(littleAtlas.models[0] as Model), id: 'cod-1b' as Model['id'], name: 'Cod 2' };
    const both: Atlas = { ...littleAtlas, models: [...littleAtlas.models, twin] };
    expect(nameIn(verdictOf(both, []), 'core:cod-1')?.name.models).toEqual(['cod-1', 'cod-1b']);
    expect(nameIn(verdictOf(withModel('cod-1b', openEnded('shaft'), both), []), 'core:cod-1')?.name.models).toEqual(['cod-1']);
  });
});

/** Two models of one family that share nothing, and their joints left out: parts of both go together. */
const codTwo: Model = {
  ...(littleAtlas.models[1] as Model),
  id: 'cod-2' as Model['id'],
  name: 'Cod 2',
  family: 'cod' as Model['family'],
};
const twoCods: Atlas = {
  ...littleAtlas,
  joints: [],
  models: [...littleAtlas.models.filter(({ id }) => id !== 'ling-3-cartridge'), codTwo],
};

describe('names of families', () => {
  const mixed = [measured('housing.bore', 40.6), blades(8), ...cartridge, marked('plate.number', '4-40')];

  it('[N4] [N5] parts of two models of a family are no unit of it: they are said to be parts, and no maker’s name reaches the unit', () => {
    const verdict = verdictOf(twoCods, mixed);
    expect(statusIn(verdict, 'family:cod')).toBe('ruled out');
    expect(statusIn(verdict, 'family-core:cod')).toBe('ruled out');
    expect(honestTexts(verdict)).toEqual(['parts of the Quayside Cod family, of no one model']);
    expect(verdict.names.filter(({ status, name }) => status === 'stands' && name.maker !== null)).toEqual([]);
  });

  it('[K1] [N4] why it is no unit of the family: the parts that no one model of it has together', () => {
    const why = explain(compileAtlas(twoCods), sheetOf(mixed), 'family-core:cod' as NameId);
    expect(why.conflicts?.found.map(({ sentence }) => sentence)).toEqual([
      'No core of the Quayside Cod family has a compressor wheel with 8 blades and a shaft with 7 mm as its end.',
    ]);
    expect(why.swaps?.found.map(({ slots }) => slots)).toEqual([['wheel'], ['shaft']]);
  });

  it('[N4] while one of its models is possible the family is said, and no parts of it', () => {
    const verdict = verdictOf(twoCods, [blades(8)]);
    expect(statusIn(verdict, 'family:cod')).toBe('open');
    expect(nameIn(verdict, 'family-parts:cod')).toBeUndefined();
  });

  it('[N4] all parts of one model without its plate are never parts of no one model', () => {
    const verdict = verdictOf(twoCods, wholeCod.slice(0, 3), { absent: ['plate' as never] });
    expect(honestTexts(verdict)).toEqual(['all parts of Quayside Cod 1, nameplate missing']);
    expect(nameIn(verdict, 'family-parts:cod')).toBeUndefined();
  });

  it('[N4] all parts of a model say of the plate that it is missing, of another, not confirmed or not yet looked at', () => {
    const parts = wholeCod.slice(0, 3);
    const said = (more: readonly Observation[], rest: Partial<Sheet> = {}) =>
      nameIn(verdictOf(littleAtlas, [...parts, ...more], rest), 'all-parts:cod-1')?.name.text.replace('all parts of Quayside Cod 1', '');
    expect(said([], { absent: ['plate' as never] })).toBe(', nameplate missing');
    expect(said([])).toBe(', nameplate not yet looked at');
    expect(said([marked('plate.number', '5-50')])).toBe(', nameplate of another');
    expect(said([marked('plate.trade-name', 'QUAYSIDE')])).toBe(', nameplate not confirmed');
    expect(said([marked('plate.trade-name', 'ELSEWHERE')])).toBe(', nameplate not confirmed');
    expect(said([marked('plate.number', '4-40')])).toBe('');
    expect(nameIn(verdictOf(littleAtlas, parts), 'all-parts:cod-1')?.name.maker).toBeNull();
  });

  it('[N4] a model that stands makes its family stand, whatever its siblings lack', () => {
    const atlas = withModel('cod-2', () => ({ allowed: codTwo.allowed.filter(({ slot }) => slot === 'shaft') }), twoCods);
    const verdict = verdictOf(atlas, wholeCod);
    for (const id of ['model:cod-1', 'family:cod', 'family-core:cod']) expect(statusIn(verdict, id), id).toBe('stands');
  });

  it('[N4] a copy whose original is settled and its size not is a pattern core after the family, and one of nothing known is not', () => {
    const lanes = (patternOf: string | null): Atlas => ({
      ...littleAtlas,
      models: littleAtlas.models.flatMap((model) =>
        model.id === 'lane-3'
          ? [model, { ...model, id: 'lane-4' as Model['id'], name: 'Back Lane 4', patternOf: patternOf as Model['patternOf'] }]
          : [model],
      ),
    });
    const copy = [blades(7), chose('shaft.weld', 'friction')];
    const size = (atlas: Atlas): Atlas => ({
      ...atlas,
      parts: [
        ...atlas.parts,
        { ...(atlas.parts.find(({ id }) => id === 'wheel/lane') as (typeof atlas.parts)[number]), id: 'wheel/lane-4' as never },
      ],
      models: atlas.models.map((model) =>
        model.id === 'lane-4'
          ? {
              ...model,
              allowed: model.allowed.map((entry) => (entry.slot === 'wheel' ? { ...entry, part: 'wheel/lane-4' as never } : entry)),
            }
          : model,
      ),
    });
    expect(honestTexts(verdictOf(size(lanes('ling-3-cartridge')), copy))).toEqual([
      'pattern part core after the Quayside Ling family, size not settled',
    ]);
    expect(honestTexts(verdictOf(size(lanes(null)), copy))).toEqual(['no name: a list of parts']);
    expect(statusIn(verdictOf(lanes(null), copy), 'pattern-family:cod')).toBeUndefined();
  });
});

describe('own housings', () => {
  /** One core under two models, each with housings of its own on both ends. */
  const ends: Atlas = (() => {
    const back = { ...(littleAtlas.slots[0] as Atlas['slots'][number]), id: 'back' as never, name: 'turbine housing' };
    const cast = { ...(littleAtlas.features[0] as Atlas['features'][number]), id: 'back.cast-name' as never, slot: 'back' as never };
    const housing = (id: string, slot: string, text: string) =>
      ({
        id,
        slot,
        name: id,
        maker: 'quayside',
        numbers: [id],
        source: 'made-up',
        facts: { [`${slot}.cast-name`]: { kind: 'mark', anyOf: [text], blank: false } },
      }) as never;
    const listed = (slot: string, part: string) => ({ slot, part, role: 'names' }) as never;
    const core = (littleAtlas.models[0] as Model).allowed.filter(({ slot }) => slot === 'wheel' || slot === 'shaft');
    const model = (id: string, family: string, name: string, letter: string): Model => ({
      ...(littleAtlas.models[0] as Model),
      id: id as Model['id'],
      name,
      family: family as Model['family'],
      allowed: [...core, listed('housing', `housing/${letter}`), listed('back', `back/${letter}`)],
    });
    return {
      ...littleAtlas,
      slots: [...littleAtlas.slots, back],
      features: [...littleAtlas.features, cast],
      joints: [],
      parts: [
        ...littleAtlas.parts.filter(({ slot }) => slot !== 'housing'),
        ...['A', 'B', 'C'].flatMap((letter) => [
          housing(`housing/${letter}`, 'housing', letter),
          housing(`back/${letter}`, 'back', letter),
        ]),
      ],
      models: [model('a', 'cod', 'Cod 1', 'A'), model('b', 'cod', 'Cod 2', 'B'), model('c', 'ling', 'Ling 3 Cartridge', 'C')],
    };
  })();
  const core = [blades(8), journal];

  it('[N4] with both its own housings a core is its model, and no hybrid of it is said', () => {
    const verdict = verdictOf(ends, [...core, marked('housing.cast-name', 'A'), marked('back.cast-name', 'A')]);
    expect(honestTexts(verdict)).toEqual(['Quayside Cod 1']);
    expect(
      verdict.names.filter(({ name }) => name.rung === 'hybrid' && name.housings.every(({ origin }) => origin.kind === 'own')),
    ).toEqual([]);
  });

  it('[N4] housings of two models on the core they share are never both its own', () => {
    const verdict = verdictOf(ends, [...core, marked('housing.cast-name', 'A'), marked('back.cast-name', 'B')]);
    const standing = verdict.names.filter(({ status, name }) => status === 'stands' && name.rung === 'hybrid');
    expect(standing.length).toBeGreaterThan(0);
    for (const { name } of standing)
      expect(
        name.housings.every(({ origin }) => origin.kind === 'own'),
        name.text,
      ).toBe(false);
    expect(honestTexts(verdict)).toEqual([
      'core of Quayside Cod 1, Cod 2 or Ling 3 Cartridge with its own compressor housing and another Quayside Cod turbine housing',
      'core of Quayside Cod 1, Cod 2 or Ling 3 Cartridge with another Quayside Cod compressor housing and its own turbine housing',
    ]);
  });
});
