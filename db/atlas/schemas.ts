import { z } from 'zod';
import type {
  Chain,
  DrawingId,
  DrawingKind,
  DrawingRoles,
  Family,
  FeatureId,
  FitRule,
  Generation,
  GrammarTokenId,
  Id,
  Instrument,
  Joint,
  Maker,
  Metal,
  Model,
  Operation,
  Port,
  Rates,
  Slot,
  SlotDrawing,
  Source,
  Stage,
  TermId,
  Warmth,
} from '../../reasoner/index.ts';
import { vocabularyLists } from '../packs/mapped-word.ts';
import { seenSchema } from '../sheets/schema.ts';

/**
 * The shape of every JSON file of a pack. The order of the fields here is their canonical order in the file.
 * Whether ids lead anywhere is asked afterwards, in cross-check.ts.
 */

/** No white space, no `;` `|` `,` or quotes, so that ids may stand in lists and file names may be made of them. */
const idPattern = /^[\p{L}\p{N}][\p{L}\p{N}._:+-]*$/u;
export const idText = z.string().max(100).regex(idPattern, { error: 'an id of letters, digits and . _ : + -' });
export const id = <T extends Id<string>>() => idText.transform((text) => text as T);
export const words = z
  .string()
  .min(1)
  .max(2000)
  .refine((text) => text.trim() === text, { error: 'a text without spaces at its ends' })
  .refine((text) => !/\p{Cc}/u.test(text), { error: 'a text of one line, without control signs' });
export const year = z.int().min(1000).max(9999);
export const minutes = z.number().min(0).max(100_000);
/** mm or degrees. */
export const measure = z.number().min(-1_000_000).max(1_000_000);
const period = { from: year.nullable(), to: year.nullable() };
const inOrder = (of: { from: number | null; to: number | null }) => of.from === null || of.to === null || of.from <= of.to;
const inOrderError = { error: '`from` no later than `to`' };

export const mappedWordShape = {
  list: z.enum(vocabularyLists),
  id: idText,
  to: idText.exactOptional(),
  as: idText.exactOptional(),
  options: z.record(idText, idText.nullable()).exactOptional(),
} as const;

const mappedWord = z
  .strictObject(mappedWordShape)
  .refine(({ to, as }) => (to === undefined) !== (as === undefined), { error: 'either `to` or `as`' })
  .refine(({ list, to, options }) => options === undefined || (list === 'features' && to !== undefined), {
    error: 'options only of a feature that has `to`',
  });

export const headSchema = z.strictObject({
  format: z.literal('kinplate atlas pack'),
  version: z.literal(1),
  id: idText,
  title: words,
  edition: z.string().regex(/^\d{4}-\d{2}-\d{2}(\.\d{1,4})?$/, { error: 'an ISO date, with .2, .3 … for further editions of one day' }),
  invented: z.boolean(),
  note: words,
  licence: words.exactOptional(),
  by: words.exactOptional(),
  leansOn: z
    .array(idText)
    .min(1)
    .refine((all) => new Set(all).size === all.length, { error: 'every pack once' })
    .exactOptional(),
  mapped: z
    .array(mappedWord)
    .min(1)
    .refine((all) => new Set(all.map(({ list, id }) => `${list} ${id}`)).size === all.length, { error: 'every entry once' })
    .exactOptional(),
});

const source = z.strictObject({
  id: id<Source['id']>(),
  title: words,
  kind: z.enum(['invented', 'measured in the shop', 'published', 'common practice, no source']),
});

const stage = z.strictObject({ id: id<Stage['id']>(), name: words, minutes, after: z.array(id<Stage['id']>()) });

/** Other words for the same; each once. */
export const alsoCalled = z
  .array(words)
  .min(1)
  .refine((all) => new Set(all.map((one) => one.toLowerCase())).size === all.length, { error: 'every word once' })
  .exactOptional();

const slot = z.strictObject({
  id: id<Slot['id']>(),
  name: words,
  alsoCalled,
  group: z.enum(['core', 'housing', 'plate']),
  stage: id<Stage['id']>(),
  swapMinutes: minutes,
});

const port = z.strictObject({ id: id<Port['id']>(), slot: id<Slot['id']>(), name: words });

const feature = z
  .strictObject({
    id: id<FeatureId>(),
    slot: id<Slot['id']>(),
    name: words,
    alsoCalled,
    kind: z.enum(['count', 'measure', 'choice', 'presence', 'mark']),
    unit: words.exactOptional(),
    options: z
      .array(z.strictObject({ id: idText, name: words, alsoCalled, said: words.exactOptional() }))
      .min(1)
      .exactOptional(),
    says: z.enum(['part number', 'serial number', 'trade name', 'year of make']).exactOptional(),
    stage: id<Stage['id']>(),
    minutes,
    instrument: words.exactOptional(),
    resolution: z.number().positive().exactOptional(),
    wear: z.strictObject({ below: z.number().min(0), above: z.number().min(0) }).exactOptional(),
    plausible: z
      .strictObject({ from: measure, to: measure })
      .refine(({ from, to }) => from < to, { error: '`from` less than `to`' })
      .exactOptional(),
    port: id<Port['id']>().exactOptional(),
    remarks: z
      .array(z.strictObject({ value: seenSchema, sentence: words, source: id<Source['id']>() }))
      .min(1)
      .exactOptional(),
  })
  .check(({ value, issues }) => {
    const fault = (path: string, message: string, input: unknown) => issues.push({ code: 'custom', path: [path], message, input });
    if (value.kind === 'measure' && value.unit !== 'mm' && value.unit !== 'deg') fault('unit', 'mm or deg, for a measure', value.unit);
    if (value.kind !== 'measure' && value.kind !== 'count' && value.unit !== undefined)
      fault('unit', `no unit, for a ${value.kind}`, value.unit);
    if (value.kind === 'choice' && value.options === undefined) fault('options', 'the options of a choice', undefined);
    if (value.kind !== 'choice' && value.options !== undefined) fault('options', `no options, for a ${value.kind}`, value.options);
    if (value.kind !== 'measure' && value.wear !== undefined) fault('wear', `no wear, for a ${value.kind}`, value.wear);
    if (value.kind !== 'measure' && value.kind !== 'count' && value.plausible !== undefined)
      fault('plausible', `nothing plausible, for a ${value.kind}`, value.plausible);
    const { from = 0, to = 0 } = value.plausible ?? {};
    if (value.kind === 'count' && (from < 0 || !Number.isInteger(from) || !Number.isInteger(to)))
      fault('plausible', 'whole numbers, zero or more, for a count', value.plausible);
    const wanted = value.says === 'year of make' ? 'count' : 'mark';
    if (value.says !== undefined && value.kind !== wanted) fault('says', `${value.says} only of a ${wanted}`, value.kind);
    value.remarks?.forEach((remark, index) => {
      const { value: seen } = remark;
      const place = ['remarks', index, 'value'];
      if (seen.kind !== value.kind)
        issues.push({ code: 'custom', path: place, message: `a ${value.kind}, like the feature`, input: seen.kind });
      else if (seen.kind === 'choice' && !value.options?.some((option) => option.id === seen.option))
        issues.push({ code: 'custom', path: [...place, 'option'], message: 'an option of the feature', input: seen.option });
    });
    const names = value.options?.map((option) => option.id) ?? [];
    const twice = names.find((name, index) => names.indexOf(name) !== index);
    if (twice !== undefined) fault('options', 'every option once', twice);
  });

const dimension = id<FeatureId>();
const limits = { min: measure, max: measure };
const minNotAboveMax = (of: { min: number; max: number }) => of.min <= of.max;
const minMaxError = { error: '`min` no greater than `max`' };
const threadEnd = z.strictObject({ size: dimension, hand: dimension });
const circle = z.strictObject({ count: dimension, diameter: dimension, bolt: dimension });

export const fitRule = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('pilot'), spigot: dimension, recess: dimension, ...limits }).refine(minNotAboveMax, minMaxError),
  z
    .strictObject({ kind: z.literal('running clearance'), inner: dimension, outer: dimension, ...limits })
    .refine(minNotAboveMax, minMaxError),
  z.strictObject({ kind: z.literal('press fit'), shaft: dimension, bore: dimension, ...limits }).refine(minNotAboveMax, minMaxError),
  z.strictObject({
    kind: z.literal('wheel to contour'),
    pairs: z
      .array(
        z
          .strictObject({ wheel: dimension, housing: dimension, way: z.enum(['radial', 'axial']), ...limits })
          .refine(minNotAboveMax, minMaxError),
      )
      .min(1),
  }),
  z.strictObject({ kind: z.literal('thread'), external: threadEnd, internal: threadEnd }),
  z.strictObject({ kind: z.literal('bolt circle'), a: circle, b: circle, within: measure.min(0) }),
  z.strictObject({ kind: z.literal('clamp profile'), a: dimension, b: dimension }),
  z.strictObject({ kind: z.literal('services'), pairs: z.array(z.strictObject({ needs: dimension, offers: dimension })).min(1) }),
  z.strictObject({ kind: z.literal('direction of rotation'), a: dimension, b: dimension }),
  z.strictObject({ kind: z.literal('same'), what: words, a: dimension, b: dimension }),
]);

const joint = z.strictObject({
  id: id<Joint['id']>(),
  name: words,
  a: id<Port['id']>(),
  b: id<Port['id']>(),
  rules: z.array(fitRule),
  source: id<Source['id']>(),
});

const token = z.strictObject({
  id: id<GrammarTokenId>(),
  name: words,
  before: z.string().max(20),
  optional: z.boolean(),
  reads: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('word'), words: z.array(words).min(1) }),
    z.strictObject({ kind: z.literal('whole number'), from: z.int().min(0), to: z.int() }).refine(inOrder, inOrderError),
    z.strictObject({ kind: z.literal('roman numeral'), from: z.int().min(1), to: z.int().max(3999) }).refine(inOrder, inOrderError),
    z.strictObject({ kind: z.literal('letters'), length: z.int().min(1).max(40) }),
    z.strictObject({ kind: z.literal('sign'), sign: words, from: z.int().min(0), to: z.int().max(40) }).refine(inOrder, inOrderError),
  ]),
  promises: z.array(
    z.discriminatedUnion('kind', [
      z.strictObject({ feature: id<FeatureId>(), kind: z.literal('number'), within: z.number().min(0) }),
      z.strictObject({
        feature: id<FeatureId>(),
        kind: z.literal('measure'),
        of: z.record(z.string(), z.number().positive()),
        within: z.number().min(0),
      }),
      z.strictObject({ feature: id<FeatureId>(), kind: z.literal('choice'), of: z.record(z.string(), z.array(idText).min(1)) }),
      z.strictObject({ feature: id<FeatureId>(), kind: z.literal('count'), of: z.record(z.string(), z.int().min(0)) }),
    ]),
  ),
});

const grammar = z.strictObject({
  tokens: z.array(token).min(1),
  demands: z.array(
    z.strictObject({
      when: z.strictObject({ token: id<GrammarTokenId>(), is: z.array(z.string()).min(1) }),
      // biome-ignore lint/suspicious/noThenProperty: the word of the grammar; the value is an object, never a function.
      then: z.strictObject({ token: id<GrammarTokenId>(), present: z.boolean() }),
      because: words,
    }),
  ),
});

/** Letters or figures and nothing else: what is left of a number when spaces and signs are passed over. */
const signs = z
  .string()
  .min(1)
  .max(60)
  .regex(/^[\p{L}\p{N}]+$/u, { error: 'letters and figures alone' });
const once = z.string().refine((letters) => new Set(letters.toLowerCase()).size === letters.length, { error: 'every letter once' });
const letters = signs.regex(/^\p{L}+$/u, { error: 'letters alone' }).pipe(once);
const before = z
  .string()
  .max(20)
  .regex(/^[^\p{L}\p{N}]*$/u, { error: 'spaces and signs alone' });
const numberPattern = z
  .strictObject({
    id: idText,
    name: words,
    says: z.enum(['part number', 'serial number']),
    ...period,
    pieces: z
      .array(
        z.discriminatedUnion('kind', [
          z.strictObject({
            before,
            kind: z.literal('fixed'),
            text: z
              .string()
              .max(60)
              .regex(/[\p{L}\p{N}]/u, { error: 'a text with letters or figures' }),
          }),
          z.strictObject({ before, kind: z.literal('slot'), codes: z.record(signs, id<Slot['id']>()) }),
          z.strictObject({
            before,
            kind: z.literal('digits'),
            name: words,
            count: z.int().min(1).max(20),
            issue: z.literal(true).exactOptional(),
          }),
          z.strictObject({ before, kind: z.literal('letters'), name: words, among: letters, count: z.int().min(1).max(20) }),
          z.strictObject({ before, kind: z.literal('year'), figures: z.union([z.literal(2), z.literal(4)]) }),
          z.strictObject({ before, kind: z.literal('year letter'), letters, first: year }),
          z.strictObject({ before, kind: z.literal('month') }),
          z.strictObject({ before, kind: z.literal('month letter'), letters: letters.pipe(z.string().length(12)) }),
          z.strictObject({
            before,
            kind: z.literal('check digit'),
            weights: z.array(z.int().min(0).max(1000)).min(1),
            modulus: z.int().min(2).max(11),
            stamps: z.enum(['remainder', 'complement']),
            ten: signs,
          }),
        ]),
      )
      .min(1),
  })
  .refine(inOrder, inOrderError);

const maker = z.strictObject({
  id: id<Maker['id']>(),
  name: words,
  tradeNames: z.array(z.strictObject({ name: words, from: year, to: year.nullable() }).refine(inOrder, inOrderError)),
  plateRule: z.boolean(),
  grammar: grammar.nullable(),
  numbering: z.array(numberPattern).min(1).exactOptional(),
  source: id<Source['id']>(),
});

const family = z
  .strictObject({
    id: id<Family['id']>(),
    name: words,
    maker: id<Maker['id']>().nullable(),
    ...period,
    descendsFrom: z.array(id<Family['id']>()),
    succeeds: z.array(id<Family['id']>()),
    patternOf: z.array(id<Family['id']>()),
    about: z.string().max(2000),
    source: id<Source['id']>(),
  })
  .refine(inOrder, inOrderError);

const generation = z
  .strictObject({
    id: id<Generation['id']>(),
    family: id<Family['id']>(),
    name: words,
    ...period,
    succeeds: id<Generation['id']>().nullable(),
    source: id<Source['id']>(),
  })
  .refine(inOrder, inOrderError);

const model = z
  .strictObject({
    id: id<Model['id']>(),
    name: words,
    family: id<Family['id']>(),
    generation: id<Generation['id']>().nullable(),
    patternOf: id<Model['id']>().nullable(),
    ...period,
    openEnded: z.array(id<Slot['id']>()).min(1).exactOptional(),
    source: id<Source['id']>(),
  })
  .refine(inOrder, inOrderError);

const metal = z.strictObject({
  id: id<Metal['id']>(),
  name: words,
  /** Millionths per K. */
  expansion: z.number().min(-100).max(1000),
  disc: z
    .strictObject({ density: z.number().positive(), young: z.number().positive(), poisson: z.number().min(0).max(0.5) })
    .exactOptional(),
  source: id<Source['id']>(),
});

const length = z.number().min(0).max(1_000_000);
const holding = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('grade'), grade: z.int().min(1).max(18) }),
  z.strictObject({ kind: z.literal('tolerance'), tolerance: length }),
]);
const way = z.enum(['larger', 'smaller']);
const cut = z.strictObject({
  feature: dimension,
  way,
  most: length,
  holds: holding,
  metal: z.array(z.strictObject({ feature: dimension, per: z.union([z.literal(1), z.literal(2)]), leaves: length })),
  moves: z.array(z.strictObject({ feature: dimension, times: z.number().min(-1000).max(1000) })),
});
const offer = z.discriminatedUnion('kind', [
  z.strictObject({ feature: dimension, kind: z.literal('choice'), anyOf: z.array(idText).min(1) }),
  z.strictObject({ feature: dimension, kind: z.literal('count'), from: z.int().min(0), to: z.int().min(0) }).refine(inOrder, inOrderError),
  z
    .strictObject({ feature: dimension, kind: z.literal('measure'), from: measure, to: measure, within: length })
    .refine(inOrder, inOrderError),
  z.strictObject({ feature: dimension, kind: z.literal('presence') }),
]);

const operation = z.strictObject({
  id: id<Operation['id']>(),
  name: words,
  slot: id<Slot['id']>(),
  does: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('cut'), cuts: z.array(cut).min(1) }),
    z.strictObject({ kind: z.literal('ring'), feature: dimension, way, wall: length, holds: holding }),
    z.strictObject({
      kind: z.literal('drill a circle'),
      count: dimension,
      diameter: dimension,
      bolt: dimension,
      land: z.strictObject({ inner: dimension, outer: dimension }),
      holes: z.record(z.string(), length),
      edge: length,
      within: length,
    }),
    z.strictObject({ kind: z.literal('remake'), offers: z.array(offer).min(1) }),
  ]),
  takes: z.array(z.strictObject({ feature: dimension, anyOf: z.array(idText).min(1) })),
  hours: z.number().min(0).max(100_000),
  turning: z.boolean(),
  cautions: z.array(words),
  source: id<Source['id']>(),
});

const chain = z
  .strictObject({
    id: id<Chain['id']>(),
    name: words,
    leaves: z.enum(['float', 'nut engagement', 'gap']),
    links: z.array(z.strictObject({ feature: dimension, times: z.number().min(-1000).max(1000) })).min(1),
    min: measure,
    max: measure,
    source: id<Source['id']>(),
  })
  .refine(minNotAboveMax, minMaxError);

const warmth = z.strictObject({
  id: id<Warmth['id']>(),
  joint: id<Joint['id']>(),
  sides: z
    .array(
      z.strictObject({
        slot: id<Slot['id']>(),
        metal: dimension,
        rise: z.number().min(-300).max(2000),
        turns: z.strictObject({ speed: z.number().min(0).max(1_000_000), bore: dimension.exactOptional() }).exactOptional(),
      }),
    )
    .min(1)
    .max(2),
  source: id<Source['id']>(),
});

const money = z.number().min(0).max(1_000_000_000);
const rates = z.strictObject({
  id: id<Rates['id']>(),
  name: words,
  money: words,
  hour: money,
  parts: z.array(z.strictObject({ part: id<Rates['parts'][number]['part']>(), price: money })),
  source: id<Source['id']>(),
});

const instrument = z.strictObject({
  id: id<Instrument['id']>(),
  name: words,
  alsoCalled,
  unit: z.enum(['mm', 'deg']),
  resolution: z.number().positive().max(1_000_000),
  u: z.number().positive().max(1_000_000),
  basis: words,
  source: id<Source['id']>(),
});

const term = z.strictObject({
  id: id<TermId>(),
  name: words,
  alsoCalled,
  short: words,
  more: words,
  drawn: z
    .strictObject({
      feature: id<FeatureId>(),
      look: words,
      best: z
        .union([
          z.strictObject({ option: idText }),
          z.strictObject({ present: z.literal(true) }),
          z.strictObject({ most: z.literal(true) }),
        ])
        .exactOptional(),
    })
    .exactOptional(),
  near: z.array(id<TermId>()).min(1).exactOptional(),
  everyday: z.literal(true).exactOptional(),
});

/** The roles of each drawing the program has, with the kind of feature that plays them. */
export const drawingRoles: DrawingRoles = {
  'compressor blades': {
    fullBlades: 'count',
    splitterBlades: 'count',
    inducer: 'measure',
    exducer: 'measure',
    back: 'choice',
    rotation: 'choice',
    nose: 'choice',
  },
  'turbine blades': { blades: 'count', inducer: 'measure', exducer: 'measure', back: 'choice', rotation: 'choice', hub: 'choice' },
  'compressor wheel contour': { exducer: 'measure', inducer: 'measure', tipHeight: 'measure' },
  'compressor housing contour': { exducer: 'measure', inducer: 'measure', tipWidth: 'measure' },
  'turbine wheel contour': { inducer: 'measure', exducer: 'measure', tipHeight: 'measure', cutbackAngle: 'measure', cutback: 'choice' },
  'turbine housing contour': { inducer: 'measure', exducer: 'measure', tipWidth: 'measure' },
  'compressor housing': {
    inlet: 'measure',
    outlet: 'measure',
    outletForm: 'choice',
    voluteHand: 'choice',
    areaRatio: 'measure',
    recirculationSlot: 'presence',
  },
  'turbine housing': {
    outlet: 'measure',
    voluteHand: 'choice',
    areaRatio: 'measure',
    entry: 'choice',
    wastegate: 'presence',
    flange: 'choice',
  },
  'inlet flange': { flange: 'choice', entry: 'choice' },
  shaft: {
    running: 'measure',
    stub: 'measure',
    stubLength: 'measure',
    bearingLength: 'measure',
    flinger: 'measure',
    sealBoss: 'measure',
    weldSpigot: 'measure',
    steps: 'count',
    innerRaces: 'presence',
    thread: 'choice',
    threadHand: 'choice',
  },
  'bearing housing ports': {
    recess: 'measure',
    bearingBore: 'measure',
    oilFeed: 'choice',
    oilDrain: 'choice',
    waterPorts: 'presence',
    ribs: 'count',
    ribPattern: 'choice',
  },
  'bearing set': { outside: 'measure', runningBore: 'measure', length: 'measure', kind: 'choice', bushes: 'count', balls: 'count' },
  backplate: { spigot: 'measure', coreSpigot: 'measure', sealBore: 'measure', ribs: 'count' },
  'heat shield': { outside: 'measure', seat: 'measure', hole: 'measure', dish: 'measure', slots: 'count', form: 'choice' },
  nameplate: {
    holes: 'count',
    spacing: 'measure',
    rivet: 'choice',
    fixing: 'choice',
    tradeName: 'mark',
    number: 'mark',
    year: 'count',
    serial: 'presence',
  },
};

/** One shape for each drawing, with its own roles. Fields stand in the same order in all of them. */
const drawingShapes = Object.entries(drawingRoles).map(([drawing, roles]) =>
  z.strictObject({
    id: id<DrawingId>(),
    slot: id<Slot['id']>(),
    drawing: z.literal(drawing as DrawingKind),
    feeds: z.strictObject(Object.fromEntries(Object.keys(roles).map((role) => [role, id<FeatureId>().exactOptional()]))),
  }),
);
const [oneDrawing] = drawingShapes as [(typeof drawingShapes)[number]];
const drawing = Object.assign(
  z.discriminatedUnion('drawing', [oneDrawing, ...drawingShapes.slice(1)]) as unknown as z.ZodType<SlotDrawing>,
  {
    shape: oneDrawing.shape,
  },
);

/** Of one entry each. */
export const entrySchemas = {
  source,
  stage,
  slot,
  port,
  feature,
  joint,
  maker,
  family,
  generation,
  model,
  metal,
  operation,
  chain,
  warmth,
  rates,
  instrument,
  drawing,
  term,
} as const;

/** No kind of the reasoner's is without its schema; that schemas and types agree otherwise is held where lists are put together. */
type Agrees<A extends B, B> = A;
export type KindsAgree = [
  Agrees<FitRule['kind'], z.output<typeof fitRule>['kind']>,
  Agrees<Operation['does']['kind'], z.output<typeof operation>['does']['kind']>,
];
