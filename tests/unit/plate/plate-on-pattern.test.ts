import { describe, expect, test } from 'vitest';
import { plannedUnit } from '../../../reasoner/builds/planned-unit.ts';
import { asId, compileAtlas, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { makersPlate, plateHolders, plateOnPattern } from '../../../reasoner/unit/plate-on-pattern.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { chose, sheetOf } from '../reasoner/little-atlas.ts';
import { plateless } from './other-quays.ts';
import { castName, number, quay, quayAtlas, ribs, serial, tradeName, year } from './quay-atlas.ts';

const unit = (observations: readonly Observation[], rest: Partial<Sheet> = {}) => unitOf(quay, sheetOf(observations, rest));
const onPaper = (chosen: Record<string, string>) =>
  plannedUnit(quay, sheetOf([], { kind: 'planned', chosen: chosen as unknown as Sheet['chosen'] }), new Set());
/** Back Lane's bearing housing: five ribs, as Ling's, and no letters. */
const lane = [castName(null), ribs(5)];
const quayside = tradeName('Quayside');

describe('[O4] whose plate it is', () => {
  const whose = (...observations: Observation[]) => makersPlate(unit(observations));
  test('[O4] its trade name’s, else whose part numbers are so, else whose serial numbers', () => {
    const [harbour, ling, made] = [tradeName('Harbour'), number('P 300-7/1'), serial('S 1999 123')];
    expect(whose(ling, harbour)).toEqual({ makers: ['harbour'], observations: [harbour.id] });
    expect(whose(made, ling)).toEqual({ makers: ['quayside'], observations: [ling.id] });
    expect(whose(made)).toEqual({ makers: ['quayside'], observations: [made.id] });
    expect(whose(tradeName('Nobody'), made)).toEqual({ makers: ['quayside'], observations: [made.id] });
  });

  test('[O4] nobody’s, where nothing on it says', () => {
    expect([whose(), whose(year(1970)), whose(chose('plate.holes', 'two')), whose(tradeName('Nobody'))]).toEqual([null, null, null, null]);
    expect(makersPlate(unit([quayside], { absent: [asId('plate')] }))).toBeNull();
    expect(makersPlate(unitOf(compileAtlas(plateless), sheetOf(lane)))).toBeNull();
  });

  test('[O4] [J2] on paper the maker’s of the plate that is chosen', () => {
    expect(makersPlate(onPaper({ plate: 'plate/mole' }))).toEqual({ makers: ['harbour'], observations: [] });
    expect(makersPlate(onPaper({}))).toBeNull();
    const nameless = compileAtlas({ ...quayAtlas, parts: quayAtlas.parts.map((part) => ({ ...part, maker: null })) });
    const sheet = sheetOf([], { kind: 'planned', chosen: { plate: 'plate/mole' } as unknown as Sheet['chosen'] });
    expect(makersPlate(plannedUnit(nameless, sheet, new Set()))).toBeNull();
  });
});

describe('[O4] what the plate is riveted to', () => {
  const held = (atlas: typeof quayAtlas) => plateHolders(unitOf(compileAtlas(atlas), sheetOf([]))).map(({ of }) => of.data.id);
  test('[O4] the slot it has a joint with, whichever side of the joint it stands on', () => {
    expect(held(quayAtlas)).toEqual(['bearing-housing']);
    expect(held({ ...quayAtlas, joints: quayAtlas.joints.map((joint) => ({ ...joint, a: joint.b, b: joint.a, rules: [] })) })).toEqual([
      'bearing-housing',
    ]);
  });

  test('[O4] nothing, where there are no plates, or none is fixed to anything', () => {
    expect(held(plateless)).toEqual([]);
    expect(held({ ...quayAtlas, joints: quayAtlas.joints.filter(({ id }) => id !== asId('rivets')) })).toEqual([]);
  });
});

describe('[O4] a maker’s plate on a part without a maker’s name', () => {
  const riveted = (observations: readonly Observation[], rest?: Partial<Sheet>) => plateOnPattern(unit(observations, rest));
  test('[O4] is told with whose it is, what says so, and the parts it can be on', () => {
    expect(riveted([...lane, quayside])).toEqual({
      makers: ['quayside'],
      observations: [quayside.id],
      slot: 'bearing-housing',
      parts: ['bearing-housing/lane'],
    });
    expect(plateOnPattern(onPaper({ plate: 'plate/ling', 'bearing-housing': 'bearing-housing/lane' }))).toEqual({
      makers: ['quayside'],
      observations: [],
      slot: 'bearing-housing',
      parts: ['bearing-housing/lane'],
    });
  });

  test('[O4] not while the part can still be a maker’s, or is one', () => {
    expect(riveted([ribs(5), quayside])).toBeNull();
    expect(riveted([castName('QUAYSIDE'), ribs(5), quayside])).toBeNull();
    expect(plateOnPattern(onPaper({ plate: 'plate/ling', 'bearing-housing': 'bearing-housing/ling' }))).toBeNull();
  });

  test('[O4] not where the part was not looked at, is none that is listed, or is not there', () => {
    const nameless = compileAtlas({
      ...quayAtlas,
      parts: quayAtlas.parts.map((part) => (part.slot === asId('bearing-housing') ? { ...part, maker: null } : part)),
    });
    expect(plateOnPattern(unitOf(nameless, sheetOf([quayside])))).toBeNull();
    expect(plateOnPattern(unitOf(nameless, sheetOf([quayside, ribs(4)])))?.parts).toEqual(['bearing-housing/cod']);
    expect(
      plateOnPattern(plannedUnit(nameless, sheetOf([], { kind: 'planned', chosen: { plate: 'plate/ling' } as never }), new Set())),
    ).toBeNull();
    expect(riveted([castName(null), ribs(4), quayside])).toBeNull();
    expect(riveted([...lane, quayside], { absent: [asId('bearing-housing')] })).toBeNull();
    expect(riveted([...lane, quayside, chose('plate.holes', 'two')])).toBeNull();
  });

  test('[O4] not where the plate is nobody’s', () => {
    expect(riveted([...lane, chose('plate.holes', 'four')])).toBeNull();
  });
});
