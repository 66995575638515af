import { describe, expect, test } from 'vitest';
import type { FeatureId } from '../../../reasoner/index.ts';
import { drawingFor } from '../../../renderer/drawings/drawings.ts';
import { bestPart } from '../../../renderer/glossary/bestPart.ts';
import { glossaryOf } from '../../../renderer/glossary/glossary.ts';
import { demoAtlas, demoPack } from '../seed/demo-atlas.ts';

const { drawings, terms } = demoPack;
const { firstTerm, firstUses, piecesOf, search: searchTerms, term: termOf, termsIn } = glossaryOf(terms);
const words = { ...demoAtlas, drawings };

/** The trade terms of the design's list of words, and our own. Meanings in the glossary are common practice, no source. */
const asked =
  'compressor housing, compressor wheel, backplate, bearing housing, bearing set, journal set, ball-bearing cartridge, shaft, turbine wheel, heat shield, turbine housing, nameplate, core, inducer, exducer, tip height, trim, A/R, blade count, splitter blades, cutback, V-band, pilot, bolt circle, seal ring, journal, thrust, stub shaft, wastegate, pattern part, maker, family, generation, model, part number, supersession, slot, port, joint, sheet, mark, atlas pack'.split(
    ', ',
  );

describe('[V2] the glossary', () => {
  test.each(asked)('has “%s”', (word) => {
    expect(termsIn(word)).toHaveLength(1);
  });

  test('every term is drawn by a drawing of ours, from a part of the demo atlas that says something of it', () => {
    for (const { id, drawn } of terms) {
      const feature = demoAtlas.features.find((one) => one.id === drawn?.feature);
      if (drawn === undefined || feature === undefined) throw new Error(`${id}: no feature ${drawn?.feature}`);
      const scene = drawingFor(feature, words)?.scene({});
      expect(scene?.features, id).toContain(drawn.feature);
      const part = bestPart(
        demoAtlas.parts.filter(({ slot }) => slot === feature.slot),
        drawn.feature,
        drawn.best,
      );
      expect(part?.facts[drawn.feature]?.kind, id).toBe(feature.kind);
    }
  });

  test('a term that asks for a part with the thing gets one: a cutback, splitter blades, twin entry, a wastegate', () => {
    const best = (id: string) => {
      const term = termOf(id);
      const feature = term?.drawn?.feature as FeatureId;
      const slot = demoAtlas.features.find((one) => one.id === feature)?.slot;
      return bestPart(
        demoAtlas.parts.filter((part) => part.slot === slot),
        feature,
        term?.drawn?.best,
      )?.facts[feature];
    };
    const cutback = best('cutback');
    expect(cutback?.kind === 'measure' && cutback.nominal).toBeGreaterThan(0);
    const splitters = best('splitter-blades');
    expect(splitters?.kind === 'count' && splitters.from).toBeGreaterThan(0);
    expect(best('wastegate')).toEqual({ kind: 'presence', present: true });
    const entry = best('entry');
    expect(entry?.kind === 'choice' && entry.anyOf.join()).toMatch(/twin/);
    const clamp = best('v-band');
    expect(clamp?.kind === 'choice' && clamp.anyOf.join()).toMatch(/v-band/);
  });

  test('ids, names and forms are each one term’s, and what stands near is there', () => {
    expect(new Set(terms.map(({ id }) => id)).size).toBe(terms.length);
    const forms = terms.flatMap(({ name, alsoCalled = [] }) => [name, ...alsoCalled].map((form) => form.toLowerCase()));
    expect(forms.filter((form, index) => forms.indexOf(form) !== index)).toEqual([]);
    for (const { id, near = [] } of terms) for (const other of near) expect(termOf(other), `${id} → ${other}`).toBeDefined();
  });
});

describe('[V2] terms where they appear', () => {
  test('the longest form counts, whole words only, each term once', () => {
    expect(termsIn('The bearing housing and the bearing set; bearing housings again.').map(({ id }) => id)).toEqual([
      'bearing-housing',
      'bearing-set',
    ]);
    expect(termsIn('a modelled landmark, sheeted and shafted')).toEqual([]);
    expect(firstTerm('bolt circle or clamp seat diameter')).toMatchObject({
      before: '',
      form: 'bolt circle',
      after: ' or clamp seat diameter',
    });
    expect(firstTerm('oil drain')).toBeNull();
  });

  test('in a table the first use is linked and no other', () => {
    expect([...firstUses(['inducer diameter', 'height', 'inducer contour', 'exducer diameter', 'inducer'])]).toEqual([0, 3]);
  });

  test('search finds by name first, then by other forms, then by meaning', () => {
    expect(searchTerms('turb')[0]?.name).toBe('turbine housing');
    expect(searchTerms('ball-bearing').map(({ id }) => id)).toContain('bearing-set');
    expect(searchTerms('snail').map(({ id }) => id)).toEqual(['volute']);
    expect(searchTerms('zzz')).toEqual([]);
    expect(searchTerms('')).toHaveLength(terms.length);
  });

  test('a sentence links each term where it is first used, leaves names and everyday words alone, and is the same text', () => {
    const linked = (text: string) => piecesOf(text).flatMap(({ text: piece, term }) => (term === null ? [] : [`${piece} → ${term.id}`]));
    expect(linked('The compressor wheel has 7 full blades; every compressor wheel listed for Petrel 13 Cartridge has 6.')).toEqual([
      'compressor wheel → compressor-wheel',
      'full blades → blade-count',
    ]);
    expect(linked('Turbine housing: bolt circle')).toEqual(['Turbine housing → turbine-housing', 'bolt circle → bolt-circle']);
    expect(linked('No model of this family stands; its A/R is 14.')).toEqual(['A/R → a-r']);
    expect(linked('nothing of the trade')).toEqual([]);
    for (const { short, more, name } of terms)
      for (const text of [short, more, name])
        expect(
          piecesOf(text)
            .map((piece) => piece.text)
            .join(''),
        ).toBe(text);
  });

  test('[A8] an atlas without words has a glossary without terms, and its texts are left as they are', () => {
    const none = glossaryOf([]);
    expect(none.piecesOf('The compressor wheel.')).toEqual([{ text: 'The compressor wheel.', term: null }]);
    expect([none.termsIn('a wheel'), none.firstTerm('a wheel'), none.search(''), [...none.firstUses(['a wheel'])]]).toEqual([
      [],
      null,
      [],
      [],
    ]);
  });

  test('[A8] another shop’s words are found as its atlas writes them', () => {
    const [one] = terms;
    if (one === undefined) throw new Error('no terms');
    const other = glossaryOf([{ ...one, name: 'Verdichterrad', alsoCalled: ['Rad (kalt)'] }]);
    expect(other.firstTerm('das Verdichterrad')).toMatchObject({ before: 'das ', form: 'Verdichterrad', after: '' });
    expect(other.piecesOf('kein Verdichterrad').map(({ text }) => text)).toEqual(['kein ', 'Verdichterrad']);
    expect(other.termsIn('ein rad (kalt)')).toHaveLength(1);
    expect(other.termsIn('ein Rad kalt')).toEqual([]);
  });
});
