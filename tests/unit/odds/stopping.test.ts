import { describe, expect, it } from 'vitest';
import { type Atlas, compileAtlas, mayStop, type Sheet } from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from '../reasoner/little-atlas.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const demoSheet = (id: string): Sheet => demoPack.sheets.find((sheet) => sheet.id.startsWith(id)) as Sheet;
const atlas = compileAtlas(littleAtlas);

/** A true Cod 1, all of it read. */
const cod = [
  marked('housing.cast-name', 'QUAY AIR'),
  measured('housing.bore', 40.65),
  blades(8),
  measured('wheel.tip', 40.01),
  chose('wheel.bore', '6'),
  marked('wheel.cast-mark', 'QUAYSIDE'),
  chose('shaft.end', '6'),
  chose('shaft.bearing', 'journal'),
  marked('plate.number', '4-40'),
  marked('plate.trade-name', 'Quayside'),
];
const without = (...features: string[]) => sheetOf(cod.filter(({ feature }) => !features.includes(feature)));

describe('when one may stop', () => {
  it('[Q1] nothing seen: looking on can make it a model, and the first check that has a part in it is named', () => {
    expect(mayStop(atlas, sheetOf([]))).toMatchObject({
      kind: 'go on',
      honest: [{ text: expect.stringContaining('Quayside') }],
      claim: null,
    });
  });

  it('[Q1] all is settled: one may stop, though checks are left; claimed as what it is not, too', () => {
    expect(mayStop(atlas, without('wheel.bore', 'wheel.cast-mark'))).toMatchObject({ kind: 'you may stop' });
    expect(mayStop(atlas, { ...without('wheel.bore'), claimed: 'Ling 3 Cartridge' })).toMatchObject({ kind: 'you may stop' });
  });

  it('[Q1] the checks count together: no one reading makes it a model, both wheel and plate do', () => {
    const sheet = without('wheel.tip', 'wheel.bore', 'wheel.cast-mark', 'wheel.blades', 'shaft.end', 'plate.number', 'plate.trade-name');
    const stopping = mayStop(atlas, sheet);
    expect(stopping).toMatchObject({ kind: 'go on', honest: [{ text: expect.stringMatching(/^Quayside Cod 1/) }] });
    expect((stopping as { slot: string }).slot).toMatch(/wheel|plate/);
  });

  it('[Q1] a claim that could still fall keeps one looking', () => {
    const sheet = { ...without('plate.number', 'plate.trade-name'), claimed: 'Cod 1' };
    expect(mayStop(atlas, sheet)).toMatchObject({ kind: 'go on', slot: 'plate' });
    // Nobody can look at a plate that is set aside.
    const unseen = ['plate.number', 'plate.trade-name'].map((feature) => ({ slot: 'plate', feature, why: 'could not see' }));
    expect(mayStop(atlas, { ...sheet, unseen } as never)).toMatchObject({ kind: 'you may stop' });
  });

  it('[Q1] what may not be opened settles nothing', () => {
    const features = littleAtlas.features.map((one) => (one.slot === 'plate' ? { ...one, stage: 'stripped' } : one));
    const inside = compileAtlas({ ...littleAtlas, features } as Atlas);
    const sheet = without('plate.number', 'plate.trade-name', 'shaft.end', 'shaft.bearing');
    expect(mayStop(inside, sheet)).toMatchObject({ kind: 'go on', slot: 'plate', how: expect.stringContaining('core stripped') });
    const sealed = { ...sheet, unseen: [{ slot: 'shaft', feature: 'shaft.end', why: 'may not be opened' }] };
    expect(mayStop(inside, sealed as never)).toMatchObject({ kind: 'you may stop' });
  });

  it('[Q1] so many verdicts are asked for and no more: then it says that it is not settled', () => {
    expect(mayStop(atlas, sheetOf([]), undefined, 0)).toMatchObject({ kind: 'not settled', judged: 0 });
    expect(mayStop(demo, demoSheet('s19'), undefined, 2)).toMatchObject({ kind: 'not settled', judged: 2 });
  });

  it('[Q1] sample sheets: the true Petrel and the honest hybrid are done, a plate not read yet is not', () => {
    expect(mayStop(demo, demoSheet('s07'))).toMatchObject({ kind: 'you may stop' });
    expect(mayStop(demo, demoSheet('s14'))).toMatchObject({ kind: 'you may stop' });
    expect(mayStop(demo, demoSheet('s08'))).toMatchObject({ kind: 'go on', slot: 'nameplate', claim: 'stands' });
    expect(mayStop(demo, demoSheet('s10'))).toBeNull();
  });
});
