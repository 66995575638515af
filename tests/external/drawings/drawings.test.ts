import { describe, expect, test } from 'vitest';
import type { Fact, Part } from '../../../reasoner/index.ts';
import { splitterAngles } from '../../../renderer/drawings/blades.ts';
import { drawingFor, drawingsOf } from '../../../renderer/drawings/drawings.ts';
import { demoAtlas, demoPack } from '../../unit/seed/demo-atlas.ts';
import { type Element, elementsOf, endsOf, lengthOf } from './svg.ts';

// What is drawn is measured again from the SVG the window gets, and held to the pack's own figures (V).
// The picture is in millimetres to a tenth of a micrometre; what is summed from two places may miss by twice that.
const near = 3;

const { drawings } = demoPack;
const words = { ...demoAtlas, drawings };
const partsIn = (slot: string) => demoAtlas.parts.filter((part) => part.slot === slot);
const fact = (part: Part, feature: string): Fact | undefined => (part.facts as Readonly<Record<string, Fact>>)[feature];
const nominal = (part: Part, feature: string): number | null => {
  const known = fact(part, feature);
  return known?.kind === 'measure' ? known.nominal : null;
};
const count = (part: Part, feature: string): number => {
  const known = fact(part, feature);
  if (known?.kind !== 'count') throw new Error(`${part.id} has no count of ${feature}`);
  return known.from;
};
const draw = (part: Part, id: string): readonly Element[] => {
  const drawing = drawingsOf(part.slot, words).find((one) => one.id === id);
  if (drawing === undefined) throw new Error(`no drawing ${id} of ${part.slot}`);
  return elementsOf(drawing.scene(part.facts));
};
const of = (elements: readonly Element[], tag: string, feature: string) =>
  elements.filter((one) => one.tag === tag && one.feature === feature);
/** Degrees clockwise from twelve. */
const angleOf = ([x, y]: readonly [number, number]): number => ((Math.atan2(x, -y) * 180) / Math.PI + 360) % 360;
const radiusOf = ([x, y]: readonly [number, number]): number => Math.hypot(x, y);
const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);

describe('Blades, measured from the picture', () => {
  test('[A1] full blades of every compressor wheel end on the exducer, 360°/n apart', () => {
    for (const wheel of partsIn('compressor-wheel')) {
      const ends = of(draw(wheel, 'compressor-wheel-blades'), 'path', 'compressor-wheel-full-blades').map((blade) => endsOf(blade)[1]);
      const n = count(wheel, 'compressor-wheel-full-blades');
      expect(ends.length, wheel.id).toBe(n);
      const angles = sorted(ends.map(angleOf).map((angle) => Math.round(angle * 1e3) / 1e3));
      for (const [k, angle] of angles.entries()) expect(angle).toBeCloseTo((360 * k) / n, 2);
      for (const end of ends) expect(radiusOf(end)).toBeCloseTo((nominal(wheel, 'compressor-wheel-exducer') ?? 0) / 2, near);
    }
  });

  test('[A1] as many splitters as the atlas says, where there is one to a passage in its middle', () => {
    let even = 0;
    for (const wheel of partsIn('compressor-wheel')) {
      const ends = of(draw(wheel, 'compressor-wheel-blades'), 'path', 'compressor-wheel-splitter-blades').map((blade) => endsOf(blade)[1]);
      const [n, splitters] = [count(wheel, 'compressor-wheel-full-blades'), count(wheel, 'compressor-wheel-splitter-blades')];
      expect(ends.length, wheel.id).toBe(splitters);
      if (n !== splitters) continue;
      even += 1;
      for (const [k, angle] of sorted(ends.map(angleOf)).entries()) expect(angle).toBeCloseTo((360 * (k + 0.5)) / n, 2);
    }
    expect(even).toBeGreaterThan(20);
  });

  test('[A5] splitters that do not go evenly into the passages are drawn as not known', () => {
    expect(splitterAngles(5, 10)).toMatchObject({ certain: true });
    expect(splitterAngles(5, 10).angles.map((angle) => Math.round(angle))).toEqual([24, 48, 96, 120, 168, 192, 240, 264, 312, 336]);
    expect(splitterAngles(6, 8).certain).toBe(false);
    expect(splitterAngles(7, 0)).toEqual({ angles: [], certain: true });
  });

  test('[A1] turbine blades: count, pitch, and both diameters', () => {
    for (const wheel of partsIn('turbine-wheel')) {
      const picture = draw(wheel, 'turbine-wheel-blades');
      const n = count(wheel, 'turbine-wheel-blades');
      const angles = sorted(of(picture, 'path', 'turbine-wheel-blades').map((blade) => Math.round(angleOf(endsOf(blade)[1]) * 1e3) / 1e3));
      expect(angles.length).toBe(n);
      for (const [k, angle] of angles.entries()) expect(angle).toBeCloseTo((360 * k) / n, 2);
      for (const which of ['inducer', 'exducer']) {
        const circle = of(picture, 'circle', `turbine-wheel-${which}`)[0];
        expect((circle?.number('r') ?? 0) * 2, wheel.id).toBeCloseTo(nominal(wheel, `turbine-wheel-${which}`) ?? Number.NaN, near);
      }
    }
  });
});

// Chord of neighbouring holes on a bolt circle, D·sin(180°/n): Machinery's Handbook, coordinates for hole circles (M, from memory).
describe('Bolt circles, measured from the picture', () => {
  test('[F1] every bolted face: n holes on the circle, neighbours D·sin(180°/n) apart, and the dimension drawn is that chord', () => {
    let faces = 0;
    for (const part of demoAtlas.parts) {
      for (const drawing of drawingsOf(part.slot, words).filter((one) => one.id.startsWith('face '))) {
        const rule = demoAtlas.joints.find((joint) => drawing.id === `face ${joint.id}`)?.rules.find((one) => one.kind === 'bolt circle');
        const side = [rule?.a, rule?.b].find((one) => one !== undefined && fact(part, one.count) !== undefined);
        const diameter = side === undefined ? null : nominal(part, side.diameter);
        if (side === undefined || diameter === null) continue;
        const n = count(part, side.count);
        const picture = elementsOf(drawing.scene(part.facts));
        const holes = of(picture, 'circle', side.count);
        if (n < 2) continue; // clamped
        faces += 1;
        expect(holes.length).toBe(n);
        const places = [...holes].sort((a, b) => angleOf([a.number('cx'), a.number('cy')]) - angleOf([b.number('cx'), b.number('cy')]));
        const chord = diameter * Math.sin(Math.PI / n);
        for (const [k, hole] of places.entries()) {
          const next = places[(k + 1) % n] as Element;
          expect(Math.hypot(hole.number('cx') - next.number('cx'), hole.number('cy') - next.number('cy')), part.id).toBeCloseTo(
            chord,
            near,
          );
        }
        if (n > 2)
          expect(
            of(picture, 'line', side.diameter)
              .map(lengthOf)
              .some((length) => Math.abs(length - chord) < 1e-3),
          ).toBe(true);
      }
    }
    expect(faces).toBeGreaterThan(150);
  });
});

describe('Profiles, measured from the picture', () => {
  test('[A1] shafts: the stub and the length between the shoulders are as long as the atlas says, every known diameter as thick', () => {
    for (const shaft of partsIn('shaft')) {
      const picture = draw(shaft, 'shaft-profile');
      for (const [length, diameter] of [
        ['shaft-stub-length', 'shaft-stub'],
        ['shaft-bearing-length', 'shaft-running'],
      ] as const) {
        const edges = of(picture, 'line', diameter).filter((line) => line.number('y1') === line.number('y2'));
        expect(edges.length).toBe(2);
        for (const edge of edges) expect(lengthOf(edge), shaft.id).toBeCloseTo(nominal(shaft, length) ?? Number.NaN, near);
      }
      for (const diameter of ['shaft-stub', 'shaft-flinger', 'shaft-running', 'shaft-seal-boss', 'shaft-weld-spigot']) {
        const shoulders = of(picture, 'line', diameter).filter((line) => line.number('x1') === line.number('x2'));
        expect(shoulders.length, diameter).toBe(2);
        for (const shoulder of shoulders) expect(lengthOf(shoulder), shaft.id).toBeCloseTo(nominal(shaft, diameter) ?? Number.NaN, near);
      }
    }
  });

  test('[A5] diameters that were counted and never measured stand dashed, one for each', () => {
    for (const shaft of partsIn('shaft')) {
      const guesses = of(draw(shaft, 'shaft-profile'), 'path', 'shaft-steps').filter((one) => one.look === 'guess');
      expect(guesses.length, shaft.id).toBe(count(shaft, 'shaft-steps') - 4);
    }
  });

  test('[A1] the turbine wheel’s edge leans from the radial by the cutback angle', () => {
    let leaning = 0;
    for (const wheel of partsIn('turbine-wheel')) {
      const edge = of(draw(wheel, 'turbine-wheel-contour'), 'line', 'turbine-wheel-cutback-angle').find((line) => line.look === 'edge');
      const lean =
        edge === undefined
          ? Number.NaN
          : Math.atan2(Math.abs(edge.number('x2') - edge.number('x1')), Math.abs(edge.number('y2') - edge.number('y1')));
      const degrees = nominal(wheel, 'turbine-wheel-cutback-angle');
      expect((lean * 180) / Math.PI, wheel.id).toBeCloseTo(degrees ?? Number.NaN, 1);
      if (degrees !== null && degrees > 0) leaning += 1;
    }
    expect(leaning).toBeGreaterThan(10);
  });

  test('[A1] contours of wheels and housings: both diameters and the width at the rim as long as the atlas says', () => {
    let drawn = 0;
    for (const [slot, width] of [
      ['compressor-wheel', 'tip-height'],
      ['compressor-housing', 'tip-contour'],
      ['turbine-wheel', 'tip-height'],
      ['turbine-housing', 'tip-contour'],
    ] as const) {
      const contour = slot.endsWith('housing') ? '-contour' : '';
      for (const part of partsIn(slot)) {
        const picture = draw(part, `${slot}-contour`);
        for (const [feature, times] of [
          [`${slot}-inducer${contour}`, 2],
          [`${slot}-exducer${contour}`, 2],
          [`${slot}-${width}`, 1],
        ] as const) {
          const known = nominal(part, feature);
          if (known === null) continue;
          drawn += 1;
          const line = of(picture, 'line', feature).find((one) => one.look === 'dimension');
          expect(line === undefined ? Number.NaN : lengthOf(line) * times, `${part.id} ${feature}`).toBeCloseTo(known, near);
        }
      }
    }
    expect(drawn).toBeGreaterThan(600);
  });

  test('[A1] bearings, heat shields and plates: lengths and diameters as the atlas gives them', () => {
    for (const bearing of partsIn('bearing-set')) {
      const picture = draw(bearing, 'bearing-set-section');
      const length = of(picture, 'line', 'bearing-set-length').find((line) => line.look === 'dimension');
      expect(length === undefined ? Number.NaN : lengthOf(length), bearing.id).toBeCloseTo(
        nominal(bearing, 'bearing-set-length') ?? Number.NaN,
        near,
      );
      const edges = of(picture, 'line', 'bearing-set-outside').map((line) => line.number('y1'));
      expect(Math.max(...edges) - Math.min(...edges)).toBeCloseTo(nominal(bearing, 'bearing-set-outside') ?? Number.NaN, near);
    }
    for (const shield of partsIn('heat-shield')) {
      const picture = draw(shield, 'heat-shield-rings');
      expect((of(picture, 'circle', 'heat-shield-rim')[0]?.number('r') ?? 0) * 2).toBeCloseTo(
        nominal(shield, 'heat-shield-rim') ?? Number.NaN,
        near,
      );
      expect(of(picture, 'line', 'heat-shield-slots').length).toBe(count(shield, 'heat-shield-slots'));
    }
    for (const plate of partsIn('nameplate')) {
      const [first, ...rest] = of(draw(plate, 'nameplate-plate'), 'circle', 'nameplate-holes');
      const far = rest.map((one) =>
        Math.hypot(one.number('cx') - (first?.number('cx') ?? 0), one.number('cy') - (first?.number('cy') ?? 0)),
      );
      expect(Math.max(...far), plate.id).toBeCloseTo(nominal(plate, 'nameplate-spacing') ?? Number.NaN, near);
    }
  });
});

describe('What is not known', () => {
  test('[A5] of a part nothing is known of, every drawing is dashed, has no scale, and no solid edge or blade', () => {
    for (const slot of demoAtlas.slots) {
      for (const drawing of drawingsOf(slot.id, words)) {
        const scene = drawing.scene({});
        expect(scene.toScale, drawing.id).toBe(false);
        expect([...scene.unknown].sort()).toEqual([...scene.features].sort());
        expect(
          elementsOf(scene)
            .filter((one) => ['edge', 'blade', 'scale'].includes(one.look))
            .map((one) => one.feature),
          `${slot.id} ${drawing.id}`,
        ).toEqual([]);
      }
    }
  });

  test('[A5] making one fact unknown names it as such and draws nothing solid for it', () => {
    for (const slot of demoAtlas.slots) {
      const part = partsIn(slot.id)[0] as Part;
      for (const drawing of drawingsOf(slot.id, words)) {
        for (const feature of drawing.scene(part.facts).features) {
          const scene = drawing.scene({ ...part.facts, [feature]: { kind: 'not known' } });
          expect(scene.unknown).toContain(feature);
          const solid = elementsOf(scene).filter((one) => one.feature === feature && one.look === 'edge');
          expect(
            solid.map((one) => one.tag),
            `${drawing.id}: ${feature}`,
          ).toEqual([]);
        }
      }
    }
  });

  test('[A1] drawings of all parts are finite and keep inside their frame', () => {
    for (const part of demoAtlas.parts) {
      for (const drawing of drawingsOf(part.slot, words)) {
        const { box } = drawing.scene(part.facts);
        expect(Object.values(box).every(Number.isFinite), `${part.id} ${drawing.id}`).toBe(true);
        for (const one of elementsOf(drawing.scene(part.facts))) {
          if (one.tag !== 'circle') continue;
          expect(one.number('cx') - one.number('r')).toBeGreaterThanOrEqual(box.x);
          expect(one.number('cx') + one.number('r')).toBeLessThanOrEqual(box.x + box.width);
        }
      }
    }
  });

  test('[A1] a feature is shown by the drawing that is found for it', () => {
    const shown = demoAtlas.features.filter((feature) => drawingFor(feature, words)?.scene({}).features.includes(feature.id));
    expect(shown.length).toBeGreaterThan(90);
  });
});
