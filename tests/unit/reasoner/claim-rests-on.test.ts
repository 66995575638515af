import { describe, expect, test } from 'vitest';
import { answer, compileAtlas, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { bestStatus } from '../../../reasoner/verdict/claim.ts';
import { twoMakers } from '../numbers/two-makers.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from './little-atlas.ts';
import { seen, yard } from './yard-atlas.ts';

const little = compileAtlas(littleAtlas);
const claimOn = (claimed: string, observations: readonly Observation[], atlas = little, rest: Partial<Sheet> = {}) => {
  const found = answer(atlas, sheetOf(observations, { claimed, ...rest }));
  if (found.kind !== 'verdict' || found.claim === null) throw new Error('something is claimed here, and nothing contradicts it');
  return found.claim;
};
const restsOn = (...asked: Parameters<typeof claimOn>) => {
  const { status, restsOn: entries } = claimOn(...asked);
  return [status, entries];
};
const eight = blades(8);

describe('the entry everything against a claim rests on (O7)', () => {
  test('[O7] of a listed name: the one without which it is no longer ruled out', () => {
    expect(restsOn('Ling 3 Cartridge', [eight])).toEqual(['ruled out', [eight.id]]);
    expect(claimOn('Ling 3 Cartridge', [eight]).sentences[0]).toMatch(/^Everything against .* rests on/);
    const journal = chose('shaft.end', '6');
    expect(restsOn('Ling 3 Cartridge', [eight, journal])).toEqual(['ruled out', []]);
    expect(restsOn('Ling 3 Cartridge', [journal, marked('housing.cast-name', 'QUAYSIDE')])).toEqual(['ruled out', [journal.id]]);
    expect(restsOn('Cod 1', [eight])).toEqual(['open', []]);
  });

  test('[O7] of two entries that each keep its part out across a joint, neither', () => {
    const gate = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: '~x ~y', front: '~x ~y' }, 'Cod 2': { wheel: 'b', shaft: '~x ~y', front: '~x ~y' } },
      fits: [
        { a: 'wheel', b: 'shaft', pairs: ['ax', 'by'] },
        { a: 'wheel', b: 'front', pairs: ['ax', 'by'] },
      ],
      without: ['back', 'elbow', 'plate'],
    });
    const [shaft, front] = seen({ shaft: 'y', front: 'y' }) as [Observation, Observation];
    expect(restsOn('Cod 1', [shaft, front], gate)).toEqual(['ruled out', []]);
    expect(restsOn('Cod 1', [shaft], gate)).toEqual(['ruled out', [shaft.id]]);
    expect(restsOn('Cod 1', [front], gate)).toEqual(['ruled out', [front.id]]);
  });

  test('[O7] of a well-formed name nobody lists: the one without which no promise is broken', () => {
    // Cod 2 promises a wheel of 44 mm.
    const tip = measured('wheel.tip', 50);
    expect(restsOn('Cod 2', [tip])).toEqual(['ruled out', [tip.id]]);
    expect(restsOn('Cod 2', [eight])).toEqual(['ruled out', [eight.id]]);
    expect(restsOn('Cod 2', [tip, blades(6)])).toEqual(['ruled out', []]);
    expect(restsOn('Cod 2', [marked('plate.number', '4-40')])).toEqual(['open', []]);
    // It promises a cartridge too, and the wheel of eight blades takes none.
    expect(restsOn('Cod 1 Cartridge', [eight])).toEqual(['ruled out', [eight.id]]);
    expect(restsOn('Cod 2 Cartridge', [tip, chose('shaft.bearing', 'journal')])).toEqual(['ruled out', []]);
    // The shaft of a cartridge takes wheels of 50 mm alone, so that each breaks it without the other.
    expect(restsOn('Cod 2 Cartridge', [chose('shaft.bearing', 'cartridge'), tip])).toEqual(['ruled out', []]);
  });

  test('[O7] be it one that keeps no part out, and is what the promise is held against', () => {
    // What is left without it is the nameless shaft, of which nobody knows the bearing.
    const journal = chose('shaft.bearing', 'journal');
    const lane = [chose('shaft.end', '7'), chose('shaft.weld', 'friction')];
    expect(restsOn('Cod 4 Cartridge', [...lane, journal])).toEqual(['ruled out', [journal.id]]);
    expect(restsOn('Cod 4 Cartridge', lane)).toEqual(['open', []]);
  });

  test('[O7] be it of another slot, which keeps out across a joint what the name promises', () => {
    // A shaft of 6 mm takes only the wheel of 40 mm.
    const end = chose('shaft.end', '6');
    expect(restsOn('Cod 2', [end])).toEqual(['ruled out', [end.id]]);
    expect(restsOn('Cod 2', [end, eight])).toEqual(['ruled out', []]);
  });

  test('[O7] [N6] of what is no name of its maker, or of nobody, none', () => {
    expect(restsOn('Ling 3', [measured('wheel.tip', 40)])).toEqual(['ruled out', []]);
    expect(restsOn('Herring 1', [eight])).toEqual(['ruled out', []]);
    expect(restsOn('Herring 1', [])).toEqual(['ruled out', []]);
  });

  test('[O7] [A4] of a name several makers list: one that would free any of them', () => {
    const two = compileAtlas(twoMakers);
    const twelve = blades(12);
    const claim = claimOn('Cod 1', [twelve], two);
    expect([claim.status, claim.restsOn]).toEqual(['ruled out', [twelve.id]]);
    expect(claim.sentences[0]).toMatch(/^Everything against “Cod 1” rests on/);
    // Harbour's Cod 1 is open, and so is the claim.
    const open = claimOn('Cod 1', [blades(6)], two);
    expect([open.status, open.restsOn, open.others[0]?.restsOn]).toEqual(['open', [], [blades(6).id]]);
    expect(open.sentences.filter((text) => text.startsWith('Everything against “Cod 1”'))).toEqual([]);
  });

  test('[A4] of several readings the best counts', () => {
    expect(bestStatus(['ruled out', 'open', 'stands'])).toBe('stands');
    expect([bestStatus(['ruled out', 'open']), bestStatus(['ruled out']), bestStatus([])]).toEqual(['open', 'ruled out', null]);
  });
});
