import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test } from 'vitest';
import type { Fact, FeatureId, Part, SlotDrawing, SlotId } from '../../../reasoner/index.ts';
import { type DrawingWords, drawingsOf } from '../../../renderer/drawings/drawings.ts';
import { SceneView } from '../../../renderer/drawings/SceneView.tsx';
import type { Scene } from '../../../renderer/drawings/scene.ts';
import { demoAtlas, demoPack } from '../seed/demo-atlas.ts';

const { drawings } = demoPack;
const words = { ...demoAtlas, drawings };
const svg = (scene: Scene): string => renderToStaticMarkup(SceneView({ scene }));
const firstIn = (slot: SlotId): Part => {
  const part = demoAtlas.parts.find((one) => one.slot === slot);
  if (part === undefined) throw new Error(`no part in ${slot}`);
  return part;
};

/** Slots and features called otherwise, as a shop with a vocabulary of its own might. */
const others = new Map([...demoAtlas.slots, ...demoAtlas.features].map(({ id }, n) => [`"${id}"`, `"other ${n}"`]));
const renamed = (json: string): string => json.replace(/"[^"]+"/g, (text) => others.get(text) ?? text);
const other = <T>(value: T): T => JSON.parse(renamed(JSON.stringify(value)));

describe('[A6] which drawing shows a slot, and which feature plays which role, is data', () => {
  test('another shop’s slots and features, called otherwise, have the same pictures', () => {
    const theirs: DrawingWords = {
      features: other(words.features),
      joints: other(words.joints),
      ports: other(words.ports),
      drawings: words.drawings.map((one) => ({ ...one, slot: other([one.slot])[0], feeds: other(one.feeds) }) as SlotDrawing),
    };
    for (const { id } of demoAtlas.slots) {
      const { facts } = firstIn(id);
      const [slot = id] = other([id]);
      const found = drawingsOf(slot, theirs).map(({ scene }) => svg(scene(other(facts))));
      expect(found).toEqual(drawingsOf(id, words).map(({ scene }) => renamed(svg(scene(facts)))));
      expect(found.join()).toContain('data-feature="other ');
    }
  });

  test('a slot the list says nothing of has its marks and its bolted faces alone', () => {
    const bare = { ...words, drawings: [] };
    expect(drawingsOf('compressor-wheel' as SlotId, bare).map(({ id }) => id)).toEqual(['marks']);
    expect(drawingsOf('backplate' as SlotId, bare)).toHaveLength(3);
    // With a drawing of its own that shows plate holes and letters, a nameplate has neither beside it.
    expect(drawingsOf('nameplate' as SlotId, bare)).toHaveLength(2);
    expect(drawingsOf('nameplate' as SlotId, words).map(({ id }) => id)).toEqual(['nameplate-plate']);
  });

  test('drawings stand in the order of the list', () => {
    const back = { ...words, drawings: [...words.drawings].reverse() };
    const slot = 'turbine-housing' as SlotId;
    expect(drawingsOf(slot, back).slice(0, 3)).toEqual(
      drawingsOf(slot, words)
        .slice(0, 3)
        .reverse()
        .map(({ id }) => expect.objectContaining({ id })),
    );
  });
});

describe('[A5] what no feature is fed to is not known', () => {
  test.each(drawings)('$id, with nothing fed, is drawn as if all were unknown, and names no feature', (drawing) => {
    const listed = { ...drawing, feeds: {} } as SlotDrawing;
    const { scene } = drawingsOf(listed.slot, { ...words, drawings: [listed] })[0] ?? { scene: null };
    const unfed = scene?.(firstIn(listed.slot).facts);
    const unknown = drawingsOf(listed.slot, words)
      .find(({ id }) => id === listed.id)
      ?.scene({});
    if (unfed === undefined || unknown === undefined) throw new Error('not drawn');
    expect(unfed).toMatchObject({ features: [], unknown: [], toScale: false });
    expect(svg(unfed)).toBe(svg(unknown).replace(/ data-feature="[^"]*"/g, ''));
    expect(svg(unfed)).toContain('?');
  });

  test.each(drawings)('$id, with any one role not fed, is drawn as if that alone were unknown', (drawing) => {
    const listed = drawing as SlotDrawing;
    const { facts } = firstIn(listed.slot);
    for (const [role, feature] of Object.entries<FeatureId>(listed.feeds)) {
      const fed = Object.entries(listed.feeds).filter(([other]) => other !== role);
      const without = { ...listed, feeds: Object.fromEntries(fed) } as SlotDrawing;
      const drawn = (one: SlotDrawing, known: typeof facts) => drawingsOf(one.slot, { ...words, drawings: [one] })[0]?.scene(known);
      const unfed = drawn(without, facts);
      const unknown = drawn(listed, { ...facts, [feature]: { kind: 'not known' } });
      if (unfed === undefined || unknown === undefined) throw new Error('not drawn');
      expect(svg(unfed), role).toBe(svg(unknown).replaceAll(` data-feature="${feature}"`, ''));
      expect(unfed.features).not.toContain(feature);
    }
  });

  test('an option the drawing cannot draw is no other option: it is said, and drawn as not known', () => {
    const [listed] = words.drawings.filter(({ drawing }) => drawing === 'compressor blades');
    if (listed?.drawing !== 'compressor blades' || listed.feeds.rotation === undefined) throw new Error('no blades');
    const { facts } = firstIn(listed.slot);
    const turning = (option: string) => {
      const fact: Fact = { kind: 'choice', anyOf: [option] };
      const scene = drawingsOf(listed.slot, words)[0]?.scene({ ...facts, [listed.feeds.rotation as FeatureId]: fact });
      return scene === undefined ? '' : svg(scene);
    };
    expect(turning('widdershins')).not.toContain(`data-feature="${listed.feeds.rotation}"`);
    expect(turning('anticlockwise')).toContain(`data-feature="${listed.feeds.rotation}"`);
    expect(turning('clockwise')).not.toBe(turning('anticlockwise'));
  });
});
