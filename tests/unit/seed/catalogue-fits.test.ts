import { describe, expect, test } from 'vitest';
import { type FitVerdict, fitOf, type Model, type PartId } from '../../../reasoner/index.ts';
import { demo, demoAtlas } from './demo-atlas.ts';

const slotOf = new Map(demoAtlas.ports.map((port) => [port.id, port.slot]));
const families = new Map(demoAtlas.families.map((family) => [family.id, family]));

/** Every part that may sit in a slot of the model: those it lists and those that take their place. */
const sitsIn = (model: Model): ReadonlySet<PartId> => {
  const parts = new Set(model.allowed.map(({ part }) => part));
  for (let before = -1; before !== parts.size; ) {
    before = parts.size;
    for (const part of demoAtlas.parts) if (part.supersedes !== undefined && parts.has(part.supersedes)) parts.add(part.id);
  }
  return parts;
};

/** The verdicts of one joint over every pair of parts that may sit in the model, worst examples first. */
const pairsOf = (model: Model) => {
  const parts = [...sitsIn(model)].flatMap((id) => demo.parts.get(id) ?? []);
  return demoAtlas.joints.flatMap((joint) =>
    parts
      .filter((part) => part.slot === slotOf.get(joint.a))
      .flatMap((a) =>
        parts
          .filter((part) => part.slot === slotOf.get(joint.b))
          .map((b) => ({ pair: `${joint.id}: ${a.id}, ${b.id}`, fit: fitOf(demo, joint.id, a.id, b.id) })),
      ),
  );
};

describe('[F2] a catalogue’s own parts go together', () => {
  test.each(demoAtlas.families.map((family) => [family.name, family.id] as const))(
    '[F2] %s: every part a model lists, or its successor, drops in with every neighbour, or a dimension is not known',
    (_name, family) => {
      for (const model of demoAtlas.models.filter((each) => each.family === family)) {
        const bad = pairsOf(model).filter(
          ({ fit }) => !(['drops in', 'not known'] satisfies FitVerdict[] as FitVerdict[]).includes(fit.verdict),
        );
        expect(
          bad.map(({ pair }) => pair),
          model.id,
        ).toEqual([]);
      }
    },
  );

  test('[A5] where it is not known, a dimension is missing and named', () => {
    const open = demoAtlas.models.flatMap(pairsOf).filter(({ fit }) => fit.verdict === 'not known');
    expect(open.length).toBeGreaterThan(0);
    for (const { pair, fit } of open) expect(fit.findings.flatMap((finding) => finding.missing).length, pair).toBeGreaterThan(0);
  });

  test('[F1] the joints of the pack ask by every kind of rule but the axial chain', () => {
    const kinds = new Set<string>(demoAtlas.joints.flatMap((joint) => joint.rules.map((rule) => rule.kind)));
    for (const kind of [
      'pilot',
      'running clearance',
      'press fit',
      'wheel to contour',
      'thread',
      'bolt circle',
      'clamp profile',
      'services',
      'direction of rotation',
      'same',
    ]) {
      expect(kinds, kind).toContain(kind);
    }
  });

  test('[F1] bolted never meets clamped', () => {
    for (const joint of demoAtlas.joints) {
      const side = (port: typeof joint.a) => demoAtlas.parts.filter((part) => part.slot === slotOf.get(port));
      const joinings = (part: (typeof demoAtlas.parts)[number]) =>
        Object.entries(part.facts).find(([feature]) => feature.endsWith('-joining'))?.[1];
      for (const a of side(joint.a)) {
        for (const b of side(joint.b)) {
          const [one, other] = [joinings(a), joinings(b)];
          if (!joint.rules.some((rule) => rule.kind === 'clamp profile') || one?.kind !== 'choice' || other?.kind !== 'choice') continue;
          if (one.anyOf[0] !== other.anyOf[0]) expect(fitOf(demo, joint.id, a.id, b.id).verdict, `${a.id}, ${b.id}`).toBe('will not fit');
        }
      }
    }
  });

  test('[N4] only pattern groups are without a maker', () => {
    for (const model of demoAtlas.models) expect(model.patternOf === null, model.id).toBe(families.get(model.family)?.maker !== null);
  });
});
