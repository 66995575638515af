import { createHash } from 'node:crypto';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { drawingsOf } from '../../../renderer/drawings/drawings.ts';
import { SceneView } from '../../../renderer/drawings/SceneView.tsx';
import type { Scene } from '../../../renderer/drawings/scene.ts';
import { demoAtlas, demoPack } from '../../unit/seed/demo-atlas.ts';

// What the window shows of every part of the demo atlas, and of a part nothing is known of, by slot and drawing: first sixteen digits of the SHA-256 of
// pictures and captions. A picture that is meant to change changes its line here, after it was looked at.
const pictures: Readonly<Record<string, string>> = {
  'backplate 1 Backplate, from the core': '8c54017f94622843',
  'backplate 2 Face: compressor housing on backplate': '2ab041a1ee7629dd',
  'backplate 3 Face: backplate on bearing housing': '4fa8e0a8e2f4219e',
  'backplate 4 Marks': 'e7a6c802cabb3f4e',
  'bearing-housing 1 Ports, from the compressor end': '4506d419d6ff18ba',
  'bearing-housing 2 Face: backplate on bearing housing': 'e09e2b02d2420a84',
  'bearing-housing 3 Face: bearing housing in turbine housing': '6751114d5728c301',
  'bearing-housing 4 Face: nameplate on bearing housing': 'c2bb9a2c3b543aa9',
  'bearing-housing 5 Marks': 'dd9b10f659684711',
  'bearing-set 1 Bearing set, cut through the axis': 'f35014d17246ac8e',
  'bearing-set 2 Marks': 'e4284f927ac678df',
  'compressor-housing 1 Compressor housing, from the inlet': '97d2a6b1db9b793c',
  'compressor-housing 2 Compressor housing’s contour': '8a5c8837ad5fff33',
  'compressor-housing 3 Face: compressor housing on backplate': '6c770215c1c1107f',
  'compressor-housing 4 Marks': 'ef2d77ca34af1ab7',
  'compressor-wheel 1 Blades, from the front': 'ca0d30aaed538cdb',
  'compressor-wheel 2 Compressor wheel': '754ec8a84a51e036',
  'compressor-wheel 3 Marks': '368b2e812dc59846',
  'heat-shield 1 Heat shield, from the turbine end': '6df4a2fe8d7498ef',
  'heat-shield 2 Marks': '0bd906c04e2ad8ef',
  'nameplate 1 Nameplate': '509dbee41d99fd24',
  'shaft 1 Shaft, compressor end at the left': 'ec09babead0f5f97',
  'shaft 2 Marks': 'ed0961e09c7daacb',
  'turbine-housing 1 Turbine housing, from the outlet': '26548b5f67164d49',
  'turbine-housing 2 Inlet flange': 'ccbd267e75e07e4d',
  'turbine-housing 3 Turbine housing’s contour': '335736c03afddd19',
  'turbine-housing 4 Face: bearing housing in turbine housing': '070a1d3cc1d1a8df',
  'turbine-housing 5 Marks': '39345a1dd4aec56a',
  'turbine-wheel 1 Blades, from the outlet': 'fe3c9a7eee8b80d2',
  'turbine-wheel 2 Turbine wheel': '980ab7f85e5a5f0d',
  'turbine-wheel 3 Marks': '85fa37e914739cb8',
};

const { drawings } = demoPack;
const words = { ...demoAtlas, drawings };

const shown = (scene: Scene): string =>
  JSON.stringify([
    scene.title,
    scene.says,
    scene.toScale,
    scene.unknown,
    renderToStaticMarkup(SceneView({ scene })),
    renderToStaticMarkup(SceneView({ scene, bare: true })),
  ]);

test('[A6] every part of the demo atlas is drawn from data as it always was, to the byte', () => {
  const found = demoAtlas.slots.flatMap((slot) =>
    drawingsOf(slot.id, words).map((drawing, order) => {
      const hash = createHash('sha256')
        .update(shown(drawing.scene({})))
        .update(drawing.scene({}).features.join());
      for (const part of demoAtlas.parts) if (part.slot === slot.id) hash.update(shown(drawing.scene(part.facts)));
      return [`${slot.id} ${order + 1} ${drawing.scene({}).title}`, hash.digest('hex').slice(0, 16)];
    }),
  );
  expect(Object.fromEntries(found)).toEqual(pictures);
});
