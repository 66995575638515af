import { describe, expect, test } from 'vitest';
import {
  type Fact,
  type FeatureId,
  fitOf,
  type JointId,
  type ModelId,
  type PartId,
  type SlotId,
  slotOptions,
} from '../../../reasoner/index.ts';
import { demo, demoAtlas, demoPack } from './demo-atlas.ts';

const fitAt = (joint: string, a: string, b: string) => fitOf(demo, joint as JointId, a as PartId, b as PartId);
const demoSheet = (start: string) => {
  const found = demoPack.sheets.find((each) => each.id.startsWith(`${start}-`));
  if (found === undefined) throw new Error(`no sheet ${start}`);
  return found;
};
const part = (id: string) => {
  const found = demo.parts.get(id as PartId);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
};
const fact = (id: string, short: string): Fact | undefined => part(id).facts[`${part(id).slot}-${short}` as FeatureId];
const modelsWith = (id: string): readonly ModelId[] =>
  demoAtlas.models.filter((model) => model.allowed.some((each) => each.part === id)).map((model) => model.id);
const familiesWith = (id: string) => new Set(modelsWith(id).map((model) => demo.models.get(model)?.family));
const model = (id: string) => demo.models.get(id as ModelId);
const namesOf = (id: string, slot: string) =>
  model(id)
    ?.allowed.filter((each) => each.slot === slot && each.role === 'names')
    .map((each) => each.part);

/** The features in which two parts of a slot differ. */
const differences = (one: string, other: string): string[] => {
  const [a, b] = [part(one), part(other)];
  const features = new Set([...Object.keys(a.facts), ...Object.keys(b.facts)]);
  return [...features].filter((id) => JSON.stringify(a.facts[id as FeatureId]) !== JSON.stringify(b.facts[id as FeatureId])).sort();
};

describe('[A2] wheels and shafts', () => {
  test('[A2] one turbine wheel on two shafts: Gannet’s head on the journal shaft and on the late cartridge shaft', () => {
    const head = 'merrowby-gannet-1-turbine-wheel';
    expect(fitAt('turbine-wheel-and-shaft', head, 'merrowby-journal-shaft').verdict).toBe('drops in');
    expect(fitAt('turbine-wheel-and-shaft', head, 'merrowby-gannet-cartridge-shaft').verdict).toBe('drops in');
    expect(modelsWith(head)).toEqual(expect.arrayContaining(['gannet-12', 'gannet-12-cartridge']));
  });

  test('[A2] one shaft under three heads and more: the journal shaft in five families (common practice, no source)', () => {
    expect(familiesWith('merrowby-journal-shaft')).toEqual(new Set(['shearwater', 'dunlin', 'fulmar', 'tern', 'gannet']));
    for (const head of ['dunlin-1', 'tern-2', 'gannet-2']) {
      expect(fitAt('turbine-wheel-and-shaft', `merrowby-${head}-turbine-wheel`, 'merrowby-journal-shaft').verdict).toBe('drops in');
    }
  });

  test('[A2] one bearing housing under five models and more, in the same five families', () => {
    expect(modelsWith('merrowby-journal-bearing-housing').length).toBeGreaterThanOrEqual(5);
    expect(familiesWith('merrowby-journal-bearing-housing').size).toBe(5);
    expect(fact('merrowby-journal-bearing-housing', 'water-ports')).toEqual({ kind: 'presence', present: false });
  });

  test('[F1] a cartridge shaft has six stepped diameters and two pressed inner races and never interchanges with a journal shaft (common practice, no source)', () => {
    expect(fact('merrowby-cartridge-shaft', 'steps')).toEqual({ kind: 'count', from: 6, to: 6 });
    expect(fact('merrowby-cartridge-shaft', 'inner-races')).toEqual({ kind: 'presence', present: true });
    expect(fitAt('shaft-and-bearing-set', 'merrowby-cartridge-shaft', 'merrowby-journal-set').verdict).toBe('will not fit');
    expect(fitAt('shaft-and-bearing-set', 'merrowby-journal-shaft', 'merrowby-cartridge').verdict).toBe('will not fit');
  });
});

describe('[F2] housings on strangers', () => {
  const housing = (stranger: string, wheel: string) => ({
    rim: fitAt('compressor-housing-and-backplate', `tarnwick-${stranger}-compressor-housing`, 'merrowby-journal-backplate-middle').verdict,
    wheel: fitAt('compressor-wheel-and-compressor-housing', `merrowby-${wheel}-compressor-wheel`, `tarnwick-${stranger}-compressor-housing`)
      .verdict,
  });

  test('[F2] a housing that drops onto a stranger’s core: Rowan IV on Gannet 12', () => {
    expect(housing('rowan-iv', 'gannet-12')).toEqual({ rim: 'drops in', wheel: 'drops in' });
  });

  test('[F2] one that does so only after machining: Alder III on Tern 7', () => {
    expect(housing('alder-iii', 'tern-7'), 'as they come').toEqual({ rim: 'will not fit', wheel: 'will not fit' });
    const onTern = slotOptions(demo, demoSheet('s24'), 'compressor-housing' as SlotId).options;
    const alder = onTern.find((each) => each.part === 'tarnwick-alder-iii-compressor-housing');
    expect([alder?.verdict, alder?.operations]).toEqual(['after work', 2]);
  });

  test('[F2] one that looks right and fouls the wheel: Rowan III on Tern 10, with the same mouths', () => {
    expect(housing('rowan-iii', 'tern-10')).toEqual({ rim: 'drops in', wheel: 'will not fit' });
    for (const mouth of ['inlet', 'outlet', 'outlet-form', 'bolt-count', 'bolt']) {
      expect(fact('tarnwick-rowan-iii-compressor-housing', mouth), mouth).toEqual(fact('merrowby-tern-10-compressor-housing', mouth));
    }
    const [finding] = fitAt(
      'compressor-wheel-and-compressor-housing',
      'merrowby-tern-10-compressor-wheel',
      'tarnwick-rowan-iii-compressor-housing',
    ).findings.filter((each) => each.verdict === 'will not fit');
    expect(finding?.found?.greatest, 'the blades reach into the housing').toBeLessThan(0);
  });

  test('[F2] twin entry against single entry: the flanges of Ketch never changed, the turbine tips did', () => {
    const single = 'osterhal-ketch-160-port-turbine-housing-27';
    expect(fitAt('bearing-housing-and-turbine-housing', 'osterhal-ketch-bearing-housing', single).verdict).toBe('drops in');
    const meeting = fitAt('turbine-wheel-and-turbine-housing', 'osterhal-ketch-180-port-turbine-wheel', single);
    expect(meeting.findings.filter((finding) => finding.verdict === 'will not fit').map((finding) => finding.rule)).toEqual([
      expect.objectContaining({ kind: 'same', what: 'entry' }),
    ]);
  });
});

describe('[F1] hands and services', () => {
  test('[F1] reverse rotation: a Tuff differs from a Basalt of its size in the hand alone', () => {
    const tuff = 'veldmark-tuff-wf-1-turbine-wheel';
    const basalt = 'veldmark-basalt-qh-1-turbine-wheel';
    expect(fact(tuff, 'rotation')).toEqual({ kind: 'choice', anyOf: ['clockwise'] });
    expect(fact(tuff, 'inducer')).toEqual(fact(basalt, 'inducer'));
    const meeting = fitAt('turbine-wheel-and-turbine-housing', tuff, namesOf('basalt-qh', 'turbine-housing')?.[0] ?? '');
    expect(meeting.findings.filter((each) => each.verdict === 'will not fit').map((each) => each.rule.kind)).toEqual([
      'direction of rotation',
    ]);
  });

  test('[F1] a left-hand thread: a Tuff wheel on a Basalt shaft stops at the nut', () => {
    const meeting = fitAt('compressor-wheel-and-shaft', 'veldmark-tuff-wf-1-compressor-wheel', 'veldmark-basalt-shaft');
    expect(meeting.findings.map((each) => [each.rule.kind, each.verdict])).toEqual([
      ['pilot', 'drops in'],
      ['thread', 'will not fit'],
    ]);
  });

  test('[F1] a nut’s hand holds against the rotation on every original, and on Slipway’s copies it does not', () => {
    const hands = (id: string) => {
      const [wheel] = namesOf(id, 'compressor-wheel') ?? [];
      const [rotation, nut] = [fact(wheel ?? '', 'rotation'), fact(wheel ?? '', 'nut-hand')];
      return rotation?.kind === 'choice' && nut?.kind === 'choice' ? `${rotation.anyOf[0]} ${nut.anyOf[0]}` : 'not known';
    };
    for (const each of demoAtlas.models) {
      const found = hands(each.id);
      if (each.family === 'slipway') expect(found, each.id).toBe('anticlockwise left');
      else expect(['anticlockwise right', 'clockwise left'], each.id).toContain(found);
    }
  });

  test('[F1] a water-cooled core offered without its water ports: the cartridge must get water, journals need none', () => {
    const meeting = fitAt('bearing-set-and-bearing-housing', 'merrowby-cartridge', 'northquay-petrel-bearing-housing');
    expect(meeting.findings.find((each) => each.rule.kind === 'services')?.verdict).toBe('will not fit');
    for (const bearings of demoAtlas.parts.filter((each) => each.slot === 'bearing-set')) {
      const [kind, water] = [bearings.facts['bearing-set-kind' as FeatureId], bearings.facts['bearing-set-needs-water' as FeatureId]];
      expect(water, bearings.id).toEqual({ kind: 'presence', present: kind?.kind === 'choice' && kind.anyOf[0] === 'cartridge' });
    }
  });
});

describe('[A1] looks that tell them apart (common practice, no source)', () => {
  test('[A1] a successor that differs only in blade count: the first Skuas and Petrel', () => {
    expect(differences('merrowby-petrel-3-turbine-wheel', 'merrowby-skua-1-3-turbine-wheel')).toEqual([
      'turbine-wheel-blades',
      'turbine-wheel-mark',
    ]);
    for (const slot of ['compressor-housing', 'compressor-wheel', 'bearing-housing', 'bearing-set', 'shaft', 'turbine-housing']) {
      expect(namesOf('skua-17-cartridge', slot), slot).toEqual(namesOf('petrel-17-cartridge', slot));
    }
  });

  test('[A1] successive generations of one wheel with eleven, then ten blades', () => {
    expect(fact('merrowby-skua-1-2-turbine-wheel', 'blades')).toEqual({ kind: 'count', from: 11, to: 11 });
    expect(fact('merrowby-skua-2-1-turbine-wheel', 'blades')).toEqual({ kind: 'count', from: 10, to: 10 });
  });

  test('[A1] a pattern part that differs only in cutback and weld: Breakwater’s turbine wheels', () => {
    for (const frame of [1, 2]) {
      expect(differences(`merrowby-skua-2-${frame}-turbine-wheel`, `breakwater-skua-2-${frame}-turbine-wheel`)).toEqual([
        'turbine-wheel-cutback',
        'turbine-wheel-cutback-angle',
        'turbine-wheel-weld',
      ]);
    }
  });

  test('[A1] six and six where Northquay has seven and seven; ten strongly cut back where it has eleven, and Gannet’s ten with about half', () => {
    const counts = (id: string, ...shorts: string[]) =>
      shorts.map((short) => {
        const found = fact(id, short);
        return found?.kind === 'count' ? found.from : null;
      });
    expect(counts('merrowby-petrel-13-compressor-wheel', 'full-blades', 'splitter-blades')).toEqual([6, 6]);
    expect(counts('northquay-petrel-13-compressor-wheel', 'full-blades', 'splitter-blades')).toEqual([7, 7]);
    expect(counts('merrowby-petrel-2-turbine-wheel', 'blades')).toEqual([10]);
    expect(counts('northquay-petrel-frame-2-turbine-wheel', 'blades')).toEqual([11]);
    expect(counts('merrowby-gannet-1-turbine-wheel', 'blades')).toEqual([10]);
    const angle = (id: string) => {
      const found = fact(id, 'cutback-angle');
      return found?.kind === 'measure' ? found.nominal : Number.NaN;
    };
    expect(angle('merrowby-gannet-1-turbine-wheel') / angle('merrowby-petrel-2-turbine-wheel')).toBeCloseTo(0.5, 1);
  });

  test('[A1] originals are welded by electron beam, copies by friction', () => {
    for (const wheel of demoAtlas.parts.filter((each) => each.slot === 'turbine-wheel')) {
      const weld = wheel.facts['turbine-wheel-weld' as FeatureId];
      if (weld?.kind === 'choice') expect(weld.anyOf, wheel.id).toEqual([wheel.maker === null ? 'friction' : 'electron-beam']);
    }
  });

  test('[N1] a family built only on cartridges: every Petrel and Skua names a cartridge and a bearing housing with water', () => {
    for (const each of demoAtlas.models.filter(({ family }) => family === 'petrel' || family === 'skua')) {
      for (const bearings of namesOf(each.id, 'bearing-set') ?? [])
        expect(fact(bearings, 'kind')).toEqual({ kind: 'choice', anyOf: ['cartridge'] });
      for (const housing of namesOf(each.id, 'bearing-housing') ?? []) {
        expect(fact(housing, 'water-ports')).toEqual({ kind: 'presence', present: true });
      }
    }
  });

  test('[F2] a pattern core takes the original’s housings: Petrel’s drop onto Northquay’s core', () => {
    expect(
      fitAt('compressor-wheel-and-compressor-housing', 'northquay-petrel-13-compressor-wheel', 'merrowby-petrel-13-compressor-housing')
        .verdict,
    ).toBe('drops in');
    expect(
      fitAt('bearing-housing-and-turbine-housing', 'northquay-petrel-bearing-housing', 'merrowby-petrel-2-turbine-housing-14').verdict,
    ).toBe('drops in');
    expect(
      fitAt('nameplate-and-bearing-housing', namesOf('petrel-13-cartridge', 'nameplate')?.[0] ?? '', 'northquay-petrel-bearing-housing')
        .verdict,
    ).toBe('drops in');
  });
});
