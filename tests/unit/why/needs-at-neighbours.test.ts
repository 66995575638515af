import { describe, expect, test } from 'vitest';
import {
  type Atlas,
  asId,
  compileAtlas,
  explain,
  type Fact,
  type NameId,
  type Operation,
  type Part,
  planBuild,
  type Sheet,
} from '../../../reasoner/index.ts';
import { number, quayAtlas, ribs } from '../plate/quay-atlas.ts';
import { blades, choice, chose, count, feature, littleAtlas, marked, measured, mm, saw, sheetOf } from '../reasoner/little-atlas.ts';
import { cut, remake } from '../reasoner/shop-operations.ts';
import { seen, yardAtlas } from '../reasoner/yard-atlas.ts';

const plain = <T>(value: unknown): T => value as T;
const takes = (of: string, ...anyOf: readonly string[]): Operation['takes'] => plain([{ feature: of, anyOf }]);

const swapsOf = (atlas: Atlas, sheet: Sheet, name: string) =>
  (explain(compileAtlas(atlas), sheet, asId<NameId>(name)).swaps?.found ?? []).map(({ slots, work, parts }) => ({
    slots: slots.join(),
    work,
    parts: parts.map((each) => each.parts),
    needs: parts.map(({ needs }) => needs.flatMap(({ fit, sentences }) => [fit, ...sentences])),
  }));

const turnTip = (hours: number) => cut('turn down the tip', 'wheel.tip', 'smaller', 1, { hours });
/** Only a shaft for the cartridge has the metal for it. */
const grindEnd = remake('grind the end to the wheel', 'shaft.end', ['6', '7'], { hours: 1.5, takes: takes('shaft.bearing', 'cartridge') });

const part = (id: string, facts: Record<string, Fact>): Part =>
  plain({ id, slot: id.split('/')[0], name: id.split('/')[1], maker: 'quayside', numbers: [id], facts, source: 'made-up' });
const wheel = (name: string, bore: string, tip: Fact): Part =>
  part(`wheel/${name}`, { 'wheel.blades': count(6), 'wheel.bore': choice(bore), 'wheel.tip': tip });
const shaft = (name: string, end: string, bearing: string): Part =>
  part(`shaft/${name}`, { 'shaft.end': choice(end), 'shaft.bearing': choice(bearing), 'shaft.weld': choice('beam') });

/** A Ling 3 of these parts and of no others in their slots. */
const ling = (parts: readonly Part[], operations: readonly Operation[], rest: object = {}): Atlas => ({
  ...littleAtlas,
  operations,
  parts: [...littleAtlas.parts, ...parts],
  models: littleAtlas.models.map((model) => {
    if (model.id !== plain('ling-3-cartridge')) return model;
    const own = model.allowed.filter(({ slot }) => !parts.some((each) => each.slot === slot));
    return {
      ...model,
      allowed: [...own, ...parts.map(({ id, slot }) => plain<(typeof own)[number]>({ slot, part: id, role: 'names' }))],
      ...rest,
    };
  }),
});
const lingName = 'service:ling-3-cartridge';
const plateSeen = marked('plate.number', '5-50');

describe('work between two parts that are both replaced', () => {
  // The tip of the second wheel has to come down for this housing; the ends of both shafts are too thin for the first.
  const [bored7, bored6] = [wheel('bored-7', '7', mm(50)), wheel('bored-6', '6', mm(50.45))];
  const [thick, thin] = [shaft('thick', '6', 'cartridge'), shaft('thin', '6', 'journal')];
  const both = sheetOf([blades(8), chose('shaft.weld', 'friction'), measured('housing.bore', 50.6, 0.01), plateSeen]);

  test('[S1] is counted once, and told of both', () => {
    expect(swapsOf(ling([bored7, thick], [grindEnd]), both, lingName)).toEqual([
      {
        slots: 'wheel,shaft',
        work: 90,
        parts: [['wheel/bored-7'], ['shaft/thick']],
        needs: [
          ['after work', 'Wheel on shaft goes together after work: grind the end to the wheel on the new shaft, 90 min.'],
          ['after work', 'Wheel on shaft goes together after work: grind the end to the wheel on the new shaft, 90 min.'],
        ],
      },
    ]);
  });

  test('[S1] two that do not go together are not chosen together, however little each takes by itself', () => {
    const tight = sheetOf([blades(8), chose('shaft.weld', 'friction'), measured('housing.bore', 50.56, 0.01), plateSeen]);
    const four = ling([bored7, bored6, thick, thin], [grindEnd, turnTip(1)]);
    expect(swapsOf(four, tight, lingName)).toMatchObject([{ slots: 'wheel,shaft', work: 60 }]);
  });

  test('[S1] none is between two that do not meet', () => {
    // The wheel stays: the new housing and the new shaft each go on beside it.
    const apart = sheetOf([blades(6), chose('shaft.weld', 'friction'), measured('housing.bore', 40.6), plateSeen]);
    expect(swapsOf(ling([bored7, thick], [grindEnd]), apart, lingName)).toMatchObject([
      { slots: 'housing,shaft', work: 90, needs: [[], ['after work', expect.stringContaining('90 min')]] },
    ]);
  });

  test('[S1] nothing is counted where nothing given for one of the two goes on beside what stays', () => {
    // As read the wheel is as large as it comes, and leaves no gap in the only housing.
    const large = wheel('large', '7', mm(50.45));
    const apart = sheetOf([
      blades(6),
      measured('wheel.tip', 50.5, 0.01),
      chose('shaft.weld', 'friction'),
      measured('housing.bore', 40.6),
      plateSeen,
    ]);
    expect(swapsOf(ling([large, thick], [grindEnd]), apart, lingName)).toMatchObject([
      {
        slots: 'housing,shaft',
        work: 0,
        needs: [
          ['will not fit', expect.anything()],
          ['after work', expect.anything()],
        ],
      },
    ]);
  });

  test('[A7] [S1] where the list is open and empty nothing is given, and the other’s work is counted all the same', () => {
    const large = wheel('large', '7', mm(50.45));
    const closed = ling([large], [turnTip(0.75)]);
    const open: Atlas = {
      ...closed,
      models: closed.models.map((model) =>
        model.id === plain('ling-3-cartridge')
          ? { ...model, openEnded: [plain('shaft')], allowed: model.allowed.filter(({ slot }) => slot !== plain('shaft')) }
          : model,
      ),
    };
    const sheet = sheetOf([blades(8), chose('shaft.end', '6'), measured('housing.bore', 50.56, 0.01), plateSeen]);
    expect(swapsOf(open, sheet, lingName)).toMatchObject([
      { slots: 'wheel,shaft', work: 45, parts: [['wheel/large'], []], needs: [['after work', expect.stringContaining('45 min')], []] },
    ]);
  });
});

describe('a build on paper', () => {
  test('[J2] [S1] a slot nobody has chosen for, of which something was read, is replaced with its neighbour and meets it', () => {
    const atlas = compileAtlas(ling([wheel('large', '7', mm(50.45))], [turnTip(0.75)]));
    const chosen = plain<Sheet['chosen']>({ housing: 'housing/cod', shaft: 'shaft/cartridge', plate: 'plate/ling' });
    const plan = planBuild(atlas, sheetOf([blades(8)], { kind: 'planned', claimed: 'Ling 3 Cartridge', chosen }));
    if (plan.kind !== 'plan') throw new Error('the sheet contradicts itself');
    expect(plan.swaps?.found.map(({ slots, parts }) => [slots.join(), parts.map(({ needs }) => needs.map(({ fit }) => fit))])).toEqual([
      ['housing,wheel', [['measure and choose'], ['measure and choose']]],
    ]);
  });
});

describe('a neighbour nobody can be sure of', () => {
  test('[S1] a part in doubt leaves it not known beside it; two that are replaced are held against each other all the same', () => {
    const atlas = yardAtlas({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: 'a' }, 'Cod 2': { wheel: 'b', shaft: 'b', front: 'y' } },
      fits: [
        { a: 'wheel', b: 'shaft', pairs: ['aa', 'bb'] },
        { a: 'shaft', b: 'front', pairs: ['ay', 'by'] },
      ],
      strays: { front: 'z' },
      without: ['back', 'elbow', 'plate'],
    });
    // The front goes with no shaft the atlas lists.
    expect(swapsOf(atlas, sheetOf(seen({ wheel: 'b', shaft: 'b', front: 'z' })), 'service:cod-1')).toEqual([
      {
        slots: 'wheel,shaft',
        work: 0,
        parts: [['wheel a'], ['shaft a']],
        needs: [[], ['not known', 'Whether shaft in front goes together is not known: the front is in doubt.']],
      },
    ]);
  });

  test('[O5] a plate whose number is not listed stays, and how it is held nobody knows', () => {
    expect(swapsOf(quayAtlas, sheetOf([ribs(5), number('P 777-5/1')]), 'service:cod-1')).toMatchObject([
      {
        slots: 'bearing-housing',
        needs: [['not known', 'Whether nameplate on bearing housing goes together is not known: the nameplate is in doubt.']],
      },
    ]);
  });

  test('[S1] a plate is nothing to fit: what it is riveted to needs nothing for its sake, whatever is known of its holes', () => {
    const blank: Atlas = {
      ...quayAtlas,
      parts: quayAtlas.parts.map((each) =>
        each.id === plain('plate/cod-1') ? { ...each, facts: { ...each.facts, 'plate.holes': { kind: 'not known' } } } : each,
      ),
    };
    expect(swapsOf(blank, sheetOf([ribs(5), number('P 300-7/1')]), 'service:cod-1')).toMatchObject([
      { slots: 'bearing-housing,plate', parts: [['bearing-housing/cod']], needs: [[]] },
    ]);
  });
});

describe('the least work beside one of several neighbours', () => {
  /** Only a cast housing is bored out; the wheel’s own is not. It stands last in the atlas. */
  const housings = (tip: number): Atlas => {
    const metal = ['cast', 'turned'].map((id) => ({ id, name: id }));
    const atlas = ling(
      [wheel('large', '7', mm(tip))],
      [turnTip(2), cut('open the bore', 'housing.bore', 'larger', 1, { hours: 1.5, takes: takes('housing.metal', 'cast') })],
    );
    const bored = (name: string, of: string) => part(`housing/${name}`, { 'housing.bore': mm(50.6), 'housing.metal': choice(of) });
    return {
      ...atlas,
      features: [...atlas.features, feature('housing.metal', 'choice', plain({ options: metal }))],
      parts: [...atlas.parts.filter(({ id }) => id !== plain('housing/ling')), bored('ling', 'turned'), bored('cast', 'cast')],
      models: atlas.models.map((model) =>
        model.id === plain('ling-3-cartridge')
          ? { ...model, allowed: [...model.allowed, plain({ slot: 'housing', part: 'housing/cast', role: 'names' })] }
          : model,
      ),
    };
  };
  const unread = sheetOf([
    blades(8),
    chose('shaft.weld', 'beam'),
    plateSeen,
    saw('housing.metal', { kind: 'choice', option: 'cast' }, { kind: 'told' }),
  ]);

  test('[S1] is named whichever of them stands first, where it has to be done and where one may measure and choose instead', () => {
    expect(swapsOf(housings(50.7), unread, lingName)).toMatchObject([
      {
        work: 90,
        needs: [
          [
            'after work',
            'Wheel in housing goes together after work with every compressor housing it may be; which work, depends on that. The least is to open the bore on the compressor housing, 90 min.',
          ],
        ],
      },
    ]);
    expect(swapsOf(housings(50.45), unread, lingName)).toMatchObject([
      {
        work: 0,
        needs: [
          [
            'measure and choose',
            'Wheel in housing goes together for some pairs only: measure both parts and choose, or open the bore on the compressor housing, 90 min.',
          ],
        ],
      },
    ]);
  });
});
