import { describe, expect, test } from 'vitest';
import { answer, asId, type CompiledAtlas, compileAtlas, type Observation, type Part, type Sheet } from '../../../reasoner/index.ts';
import { lettered, partOf, quayBut } from '../plate/other-quays.ts';
import { castName, number, quay, ribs, serial, tradeName, year } from '../plate/quay-atlas.ts';
import { blades, chose, letters, littleAtlas, marked, saw, sheetOf } from './little-atlas.ts';
import { seen, yard } from './yard-atlas.ts';

const little = compileAtlas(littleAtlas);
const verdictOn = (atlas: CompiledAtlas, observations: readonly Observation[], rest: Partial<Sheet> = {}) => {
  const found = answer(atlas, sheetOf(observations, rest));
  if (found.kind !== 'verdict') throw new Error('nothing here contradicts itself');
  return found;
};
/** What was found, by kind; of letters what they come to. */
const found = (...asked: Parameters<typeof verdictOn>) =>
  verdictOn(...asked).findings.map((finding) => (finding.kind === 'mark' ? finding.reading : finding.kind));

describe('a part no listed one is like (C1, J3)', () => {
  test('[C1] is said of its slot, with nothing of single entries that only together keep every part out', () => {
    expect(found(little, [blades(13)])).toEqual(['unlisted part']);
    expect(found(little, [blades(13), marked('wheel.cast-mark', null)])).toEqual(['unlisted part']);
    expect(found(little, [marked('wheel.cast-mark', null), blades(13)])).toEqual(['unlisted part']);
    expect(verdictOn(little, [blades(13)]).findings).toMatchObject([{ slot: 'wheel' }]);
  });

  test('[C1] not of one that is missing', () => {
    expect(found(little, [], { absent: [asId('wheel'), asId('plate')] })).toEqual([]);
  });

  test('[C1] [O5] nor once more of a plate that is told already as one no listed plate is like', () => {
    const plate = [marked('plate.number', '5-50'), marked('plate.trade-name', 'Quay Air')];
    expect(found(little, plate)).toEqual(['plate']);
    expect(found(little, [...plate, blades(13)])).toEqual(['plate', 'unlisted part']);
    expect(found(little, [marked('plate.trade-name', 'Nobody')])).toEqual(['plate']);
  });

  test('[C1] [O5] but of one whose number was misread or is not its maker’s: that says something else', () => {
    const known = quayBut({ makers: { outland: { numbering: [lettered('part number', 'O', 4)] } } });
    const kinds = verdictOn(known, [number('P 777-4/1')]).findings.map((finding) =>
      finding.kind === 'plate' ? (finding.disagreement?.kind ?? 'itself') : finding.kind,
    );
    expect(kinds).toEqual(['check digit', 'unlisted part']);
    // This one is both, and told to be like no listed plate is enough.
    expect(found(quay, [number('ZZ 9'), tradeName('Harbour')])).toEqual(['plate', 'plate']);
  });
});

describe('letters (O4)', () => {
  const wheel = littleAtlas.parts.find(({ id }) => id === asId('wheel/lane')) as Part;
  /** Back Lane's wheel of seven blades, and another of seven that is Quayside's and bears these letters. */
  const beside = (...marks: string[]) =>
    compileAtlas({
      ...littleAtlas,
      parts: [
        ...littleAtlas.parts,
        {
          ...wheel,
          id: asId('wheel/seven'),
          maker: asId('quayside'),
          numbers: [],
          facts: { ...wheel.facts, 'wheel.cast-mark': letters(...marks) } as never,
        },
      ],
    });

  test('[O4] a name its maker traded under is that maker’s, though no part bears it', () => {
    expect(found(little, [blades(7), marked('wheel.cast-mark', 'Quay-Air')])).toEqual(['maker’s name on a pattern part', 'unlisted part']);
    expect(found(little, [blades(7), marked('wheel.cast-mark', 'Sluice')])).toEqual(['other letters', 'unlisted part']);
  });

  test('[O4] so are letters of which a maker’s part bears several', () => {
    const eight = compileAtlas({
      ...littleAtlas,
      parts: littleAtlas.parts.map((part) =>
        part.id === asId('wheel/cod') ? { ...part, facts: { ...part.facts, 'wheel.cast-mark': letters('K7', 'K8') } as never } : part,
      ),
    });
    expect(found(eight, [blades(7), marked('wheel.cast-mark', 'K8')])).toEqual(['maker’s name on a pattern part', 'unlisted part']);
  });

  test('[O4] where it would be one of a maker’s or a pattern part, the letters are only others', () => {
    expect(found(beside('K7'), [blades(7), marked('wheel.cast-mark', 'QUAYSIDE')])).toEqual(['other letters', 'unlisted part']);
    // Without letters it would be Back Lane's, which has none.
    expect(found(beside('K7'), [blades(7), marked('wheel.cast-mark', null)])).toEqual([]);
  });

  test('[O4] a place without letters on what would be a maker’s or a pattern part with letters is only other letters', () => {
    const all = compileAtlas({
      ...littleAtlas,
      parts: littleAtlas.parts.flatMap((part) =>
        part.id === asId('wheel/lane')
          ? [
              { ...part, facts: { ...part.facts, 'wheel.cast-mark': letters('LANE') } as never },
              {
                ...part,
                id: asId<Part['id']>('wheel/seven'),
                maker: asId<NonNullable<Part['maker']>>('quayside'),
                numbers: [],
                facts: { ...part.facts, 'wheel.cast-mark': letters('K7') } as never,
              },
            ]
          : [part],
      ),
    });
    expect(found(all, [blades(7), marked('wheel.cast-mark', null)])).toEqual(['other letters', 'unlisted part']);
  });

  test('[O4] which plates bear other letters tells nobody anything', () => {
    expect(found(little, [marked('plate.number', '9-99')])).toEqual(['plate']);
    // A blank place where every maker stamps one does.
    expect(found(little, [marked('plate.number', null)])).toEqual(['plate', 'no name where the maker casts one']);
    expect(found(quay, [number('P 777-5/1')])).toEqual(['plate']);
  });

  test('[O4] a maker’s plate on a part without a maker’s name is a finding, and the pattern core’s name says of it that it is no proof', () => {
    const lane = [castName(null), ribs(5), saw('turbine-wheel.blades', { kind: 'count', from: 14, to: 14 }), chose('plate.holes', 'four')];
    const riveted = verdictOn(quay, [...lane, tradeName('Quayside')]);
    expect(riveted.findings.filter(({ kind }) => kind === 'mark')).toMatchObject([
      {
        observation: tradeName('Quayside').id,
        slot: 'bearing-housing',
        wouldBe: ['bearing-housing/lane'],
        reading: 'maker’s plate on a pattern part',
      },
    ]);
    const core = (verdict: typeof riveted) => verdict.names.find(({ name }) => name.id === asId('pattern:lane-1'));
    expect([core(riveted)?.status, core(riveted)?.name.text]).toEqual([
      'stands',
      'pattern part core (pattern of Quayside Ling 1, no maker’s name), bearing a plate of Quayside that is no proof',
    ]);
    const open = verdictOn(quay, [castName(null), ribs(5), tradeName('Quayside')]);
    expect([core(open)?.status, core(open)?.name.text]).toEqual([
      'open',
      'pattern part core (pattern of Quayside Ling 1, no maker’s name)',
    ]);
    expect(found(quay, lane)).toEqual([]);
  });
});

describe('what accuses a plate (O5)', () => {
  const plates = (atlas: CompiledAtlas, ...observations: Observation[]) =>
    verdictOn(atlas, observations).findings.flatMap((finding) =>
      finding.kind === 'plate' ? [finding.disagreement?.kind ?? 'itself'] : [],
    );

  test('[O5] that it does not go with its bearing housing is said beside what else disagrees', () => {
    const moved = [castName('QUAYSIDE'), ribs(4), chose('bearing-housing.hub', 'small'), chose('plate.holes', 'four')];
    expect(plates(quay, ...moved)).toEqual(['itself']);
    expect(plates(quay, ...moved, tradeName('Quayside'), year(1970))).toEqual(['trade name not in use', 'itself']);
    expect(plates(quay, ...moved, serial('S 1970 123'))).toEqual(['itself']);
  });

  test('[O5] a plate of which nothing was seen is not accused, though no listed one goes on its bearing housing', () => {
    const three = quayBut({
      parts: { 'plate/mole': { facts: { ...partOf('plate/mole').facts, 'plate.holes': { kind: 'choice', anyOf: ['two'] } } as never } },
    });
    const verdict = verdictOn(three, [ribs(6)]);
    expect(verdict.slots.filter(({ doubtful }) => doubtful).map(({ slot }) => String(slot))).toEqual(['bearing-housing', 'plate']);
    expect(verdict.findings.filter(({ kind }) => kind === 'plate')).toEqual([]);
  });

  test('[O5] where there are no plates nothing is said of one', () => {
    const bare = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: 'x' }, 'Cod 2': { wheel: 'b', shaft: 'y' } },
      fits: [{ a: 'wheel', b: 'shaft', pairs: ['ax', 'by'] }],
      without: ['front', 'back', 'elbow', 'plate'],
    });
    expect(found(bare, seen({ wheel: 'a', shaft: 'y' }))).toEqual([]);
  });
});

describe('remarks (O1)', () => {
  test('[O1] what tells of repair says so only where it was seen', () => {
    const patch = (present: boolean) => saw('shaft.welded-patch', { kind: 'presence', present });
    expect(found(little, [patch(true)])).toEqual(['remark']);
    expect(found(little, [patch(false)])).toEqual([]);
  });
});
