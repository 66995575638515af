import { describe, expect, test } from 'vitest';
import { answer, fitOf, type PartId, type SheetId, type SlotId, type Verdict } from '../../../reasoner/index.ts';
import { demo, demoAtlas, demoPack } from './demo-atlas.ts';

const sheet = (start: string) => {
  const found = demoPack.sheets.find((each) => each.id.startsWith(`${start}-`));
  if (found === undefined) throw new Error(`no sheet ${start}`);
  return found;
};
const verdictOn = (start: string): Verdict => {
  const given = answer(demo, sheet(start), { explain: 'none' });
  if (given.kind !== 'verdict') throw new Error(`${start} is contradictory`);
  return given;
};

/** What the claim came to, the honest name, and the slots whose part no listed part can be. */
const outcome = (start: string) => {
  const { claim, honest, open, findings } = verdictOn(start);
  return {
    claim: claim?.status ?? null,
    reading: claim?.reading.verdict ?? null,
    honest,
    open,
    findings: findings.map((finding) => finding.kind),
  };
};

describe('[N1] found units, each a trade fact told with the demo world (common practice, no source)', () => {
  test('[N1] s01: a housing swap takes minutes and its name says nothing of the core', () => {
    const { claim, honest, open } = outcome('s01');
    expect([claim, honest]).toEqual(['ruled out', ['pattern-family:petrel']]);
    expect(open).toContain('pattern:northquay-13');
  });

  test('[O5] s02: a plate that is glued on speaks for nothing', () => {
    const { claim, findings } = outcome('s02');
    expect(claim).toBe('ruled out');
    expect(findings).toContain('plate');
    expect(findings).toContain('told claim');
  });

  test('[N6] s03 and s04: names nobody ever made are the first finding', () => {
    expect(outcome('s03').reading).toBe('no name of this maker');
    const { reading, open } = outcome('s04');
    expect(reading).toBe('no name of this maker');
    expect(open).toEqual(['model:tern-4']);
  });

  test('[N1] s05: eleven blades make a Petrel 17 a Skua 17 without its plate', () => {
    const { claim, open } = outcome('s05');
    expect(claim).toBe('ruled out');
    expect(open.length).toBeGreaterThan(0);
    for (const name of open) expect(name).toBe('all-parts:skua-17-cartridge');
  });

  test('[N1] s06: cutback and weld alone give the careful copy away', () => {
    const { claim, open } = outcome('s06');
    expect([claim, open]).toEqual(['ruled out', ['pattern:breakwater-15']]);
  });

  test('[N3] s07: a true Petrel stands', () => {
    const { claim, honest } = outcome('s07');
    expect([claim, honest]).toEqual(['stands', ['model:petrel-11-cartridge']]);
  });

  test('[O3] s08: a welded outlet rules nothing out, and the atlas is silent about it', () => {
    const { claim, open } = outcome('s08');
    expect([claim, open]).toEqual(['open', ['model:petrel-11-cartridge']]);
    const silent = verdictOn('s08').slots.find((slot) => slot.slot === 'compressor-housing')?.silent ?? [];
    expect(silent.flatMap((each) => each.features)).toContain('compressor-housing-welded-outlet');
  });

  test('[O4] s09: a maker’s name on what is a pattern part but for the letters', () => {
    const marks = verdictOn('s09').findings.filter((finding) => finding.kind === 'mark');
    expect(marks.map((finding) => finding.kind === 'mark' && finding.reading)).toEqual(['maker’s name on a pattern part']);
  });

  test('[O6] s10: two counts of one wheel stop the reasoning', () => {
    expect(answer(demo, sheet('s10')).kind).toBe('contradiction');
  });

  test('[N2] s11: on a shaft of five families the head leaves two Gannets', () => {
    expect(outcome('s11').open).toEqual(['core:gannet-9', 'core:gannet-12']);
  });

  test('[N2] s12: the bearing housing alone leaves every model it serves open', () => {
    const { claim, honest } = outcome('s12');
    expect([claim, honest]).toEqual(['open', ['parts']]);
    const statuses = verdictOn('s12').names.filter(
      ({ name }) => name.rung === 'model with service parts replaced' && name.maker === 'merrowby',
    );
    const standing = statuses.filter(({ status }) => status === 'open').map(({ name }) => name.family);
    expect(new Set(standing)).toEqual(new Set(['shearwater', 'dunlin', 'fulmar', 'tern', 'gannet']));
  });

  test('[N3] s13: a rebuilt Tern keeps its name, service parts aside', () => {
    const { claim, honest } = outcome('s13');
    expect([claim, honest]).toEqual(['stands', ['service:tern-7']]);
  });

  test('[N4] s14: an honest hybrid stands as what it is', () => {
    expect(outcome('s14').honest).toEqual(['core:gannet-12/compressor-housing=rowan/turbine-housing=own']);
  });

  test('[N2] s15: the head does not say which shaft it is on', () => {
    const { claim, open } = outcome('s15');
    expect(claim).toBe('open');
    expect(open).toEqual(expect.arrayContaining([expect.stringMatching(/gannet-12$/), expect.stringMatching(/gannet-12-cartridge$/)]));
  });

  test('[O5] s16: trade name and year that do not agree are named', () => {
    const { claim, findings } = outcome('s16');
    expect([claim, findings.includes('plate')]).toEqual(['ruled out', true]);
  });

  test('[N1] s17: the direction of rotation settles the family', () => {
    const { claim, honest } = outcome('s17');
    expect([claim, honest]).toEqual(['ruled out', ['family-core:tuff']]);
  });

  test('[N4] s18: a left-hand nut on an anticlockwise shaft is a pattern core', () => {
    const { claim, honest } = outcome('s18');
    expect(claim).toBe('ruled out');
    expect(honest).toContain('pattern:slipway-iv-18');
  });

  test('[N1] s19: a cartridge in a housing without water ports cannot be explained with listed parts', () => {
    const { slots, claim } = verdictOn('s19');
    expect(claim?.status).toBe('ruled out');
    const doubtful = slots.filter((slot) => slot.doubtful && !slot.absent).map((slot) => slot.slot);
    expect(doubtful).toEqual(expect.arrayContaining(['bearing-housing', 'bearing-set']));
  });

  test('[N1] s20: single entry rules the twin-entry Ketch out', () => {
    const { claim, honest, open } = outcome('s20');
    expect([claim, honest, open]).toEqual(['ruled out', ['family:ketch'], ['model:ketch-160-port']]);
  });

  test('[C1] s21: a bearing set that will not repeat its readings is no listed one', () => {
    const { claim, findings } = outcome('s21');
    expect([claim, findings.includes('unlisted part')]).toEqual(['ruled out', true]);
  });

  test('[N4] s22: copies without letters', () => {
    const { claim, open } = outcome('s22');
    expect([claim, open]).toEqual(['ruled out', ['pattern:ferrygate-12']]);
  });
});

describe('[J2] builds on paper', () => {
  const slotOf = new Map(demoAtlas.ports.map((port) => [port.id, port.slot]));
  /** The joints that do not simply drop in. */
  const jointsOf = (start: string): Record<string, string> => {
    const chosen = sheet(start).chosen as Record<SlotId, PartId>;
    const verdicts = demoAtlas.joints.map((joint) => {
      const [a, b] = [chosen[slotOf.get(joint.a) as SlotId], chosen[slotOf.get(joint.b) as SlotId]];
      if (a === undefined || b === undefined) throw new Error(`${start} leaves a slot empty`);
      return [joint.id, fitOf(demo, joint.id, a, b).verdict] as const;
    });
    return Object.fromEntries(verdicts.filter(([, verdict]) => verdict !== 'drops in'));
  };

  test('[F2] every planned build but the traps drops together as it comes', () => {
    expect(jointsOf('s23')).toEqual({});
    expect(jointsOf('s24')).toEqual({
      'compressor-housing-and-backplate': 'will not fit',
      'compressor-wheel-and-compressor-housing': 'will not fit',
    });
    expect(jointsOf('s25')).toEqual({ 'compressor-wheel-and-compressor-housing': 'will not fit' });
    expect(jointsOf('s26')).toEqual({ 'bearing-set-and-bearing-housing': 'will not fit', 'shaft-and-bearing-set': 'will not fit' });
    expect(jointsOf('s27')).toEqual({
      'compressor-wheel-and-compressor-housing': 'will not fit',
      'compressor-wheel-and-shaft': 'will not fit',
    });
    expect(jointsOf('s28')).toEqual({ 'turbine-wheel-and-turbine-housing': 'will not fit' });
    expect(jointsOf('s29')).toEqual({});
  });

  test('[F4] a planned build fills all ten slots', () => {
    for (const each of demoPack.sheets.filter((one) => one.kind === 'planned')) expect(Object.keys(each.chosen), each.id).toHaveLength(10);
  });

  test('[O1] sheets are numbered, s01 onwards, each number once', () => {
    const ids: readonly SheetId[] = demoPack.sheets.map((each) => each.id);
    expect(ids.map((id) => id.slice(0, 3))).toEqual(ids.map((_, i) => `s${String(i + 1).padStart(2, '0')}`));
  });
});
