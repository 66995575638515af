import {
  type Atlas,
  asId,
  compileAtlas,
  explain,
  type Feature,
  type Model,
  type NameAnswer,
  type NameId,
  type Observation,
  type Part,
  type Pulse,
  type Sheet,
  type SheetId,
} from '../../reasoner/index.ts';
import { littleAtlas } from '../unit/reasoner/little-atlas.ts';

const plain = <T>(value: unknown): T => value as T;

/**
 * A made-up sheet with more reasons against one name than anybody reads: the name allows as many wheels as numbers are given, and each is contradicted by so many readings
 * of its own. Any choice of one reading for each wheel is a minimal conflict: the product of the numbers in all.
 */
export const wideSheet = (...readingsOf: readonly number[]): { readonly atlas: Atlas; readonly sheet: Sheet; readonly name: NameId } => {
  const upTo = (count: number) => Array.from({ length: count }, (_, i) => i);
  const ofWheel = (wheel: number, reading: number) => `wheel.look-${wheel}-${reading}`;
  const ids = readingsOf.flatMap((readings, wheel) => upTo(readings).map((reading) => ofWheel(wheel, reading)));
  const features = ids.map((id) =>
    plain<Feature>({ id, slot: 'wheel', name: id.slice(6), kind: 'presence', stage: 'as-received', minutes: 1 }),
  );
  const parts = readingsOf.map((readings, wheel) =>
    plain<Part>({
      id: `wheel/wide-${wheel}`,
      slot: 'wheel',
      name: `wide ${wheel}`,
      maker: 'quayside',
      numbers: [],
      facts: Object.fromEntries(upTo(readings).map((reading) => [ofWheel(wheel, reading), { kind: 'presence', present: false }])),
      source: 'made-up',
    }),
  );
  const [first, ...rest] = littleAtlas.models as [Model, ...Model[]];
  const allowed = [
    ...first.allowed.filter(({ slot }) => slot !== 'wheel'),
    ...parts.map(({ id }) => plain<Model['allowed'][number]>({ slot: 'wheel', part: id, role: 'names' })),
  ];
  const sheet = plain<Sheet>({
    id: asId<SheetId>('wide'),
    title: 'wide',
    story: '',
    kind: 'found',
    claimed: null,
    claimedMaker: null,
    observations: ids.map((id, i) =>
      plain<Observation>({ id: `o${i}`, slot: 'wheel', feature: id, value: { kind: 'presence', present: true }, sure: { kind: 'seen' } }),
    ),
    absent: [],
    chosen: {},
  });
  return {
    atlas: {
      ...littleAtlas,
      features: [...littleAtlas.features, ...features],
      parts: [...littleAtlas.parts, ...parts],
      models: [{ ...first, allowed }, ...rest],
    },
    sheet,
    name: asId<NameId>(`model:${first.id}`),
  };
};

/** The name of the wide sheet explained, with so many of its 20,800 reasons. */
export const explainWide = (reasons: number, pulse?: Pulse): NameAnswer => {
  const { atlas, sheet, name } = wideSheet(8, 2600);
  return explain(compileAtlas(atlas, pulse), sheet, name, { conflicts: reasons, questions: Number.POSITIVE_INFINITY });
};
