import {
  type Atlas,
  compileAtlas,
  type Fact,
  type Feature,
  type Maker,
  type Observation,
  type Part,
  type Seen,
  type Sheet,
  type Sure,
  type TokenPromise,
} from '../../../reasoner/index.ts';

/**
 * A made-up atlas small enough to reason over by hand: four slots in a row (housing – wheel – shaft, and a plate on its own), one maker
 * with two models that differ in wheel and housing, and one nameless workshop that copies the first.
 */
const plain = <T>(value: unknown): T => value as T;

export const feature = (id: string, kind: Feature['kind'], rest: Partial<Feature> = {}): Feature =>
  plain<Feature>({
    id,
    slot: id.split('.')[0],
    name: (id.split('.')[1] ?? id).replaceAll('-', ' '),
    kind,
    stage: 'as-received',
    minutes: 1,
    ...rest,
  });

export const count = (n: number): Fact => ({ kind: 'count', from: n, to: n });
export const mm = (nominal: number, within = 0.05): Fact => ({ kind: 'measure', nominal, lower: -within, upper: within });
export const letters = (...anyOf: string[]): Fact => ({ kind: 'mark', anyOf, blank: false });
export const noLetters: Fact = { kind: 'mark', anyOf: [], blank: true };
export const choice = (...anyOf: string[]): Fact => ({ kind: 'choice', anyOf });

const part = (id: string, maker: string | null, facts: Record<string, Fact>, rest: Partial<Part> = {}): Part =>
  plain<Part>({ id, slot: id.split('/')[0], name: id.split('/')[1], maker, numbers: [`N-${id}`], facts, source: 'made-up', ...rest });

const allow = (slot: string, name: string, role = 'names') => ({ slot, part: `${slot}/${name}`, role });

export const littleAtlas: Atlas = plain<Atlas>({
  edition: 'little',
  sources: [{ id: 'made-up', title: 'made up for a test', kind: 'invented' }],
  stages: [
    { id: 'as-received', name: 'as received', minutes: 0, after: [] },
    { id: 'housing-off', name: 'compressor housing off', minutes: 15, after: ['as-received'] },
    { id: 'stripped', name: 'core stripped', minutes: 40, after: ['housing-off'] },
  ],
  slots: [
    { id: 'housing', name: 'compressor housing', group: 'housing', stage: 'housing-off', swapMinutes: 10 },
    { id: 'wheel', name: 'compressor wheel', group: 'core', stage: 'housing-off', swapMinutes: 20 },
    { id: 'shaft', name: 'shaft', group: 'core', stage: 'stripped', swapMinutes: 30 },
    { id: 'plate', name: 'nameplate', group: 'plate', stage: 'as-received', swapMinutes: 5 },
  ],
  ports: [
    { id: 'housing-bore', slot: 'housing', name: 'bore' },
    { id: 'wheel-tip', slot: 'wheel', name: 'tip' },
    { id: 'wheel-bore', slot: 'wheel', name: 'bore' },
    { id: 'shaft-end', slot: 'shaft', name: 'end' },
  ],
  features: [
    feature('housing.cast-name', 'mark'),
    feature('housing.bore', 'measure', { unit: 'mm', wear: { below: 0, above: 0.1 } }),
    feature('wheel.blades', 'count', { unit: 'blades', stage: plain('housing-off') }),
    feature('wheel.tip', 'measure', { unit: 'mm', stage: plain('housing-off') }),
    feature('wheel.bore', 'choice', {
      options: [
        { id: '6', name: '6 mm' },
        { id: '7', name: '7 mm' },
      ],
    }),
    feature('wheel.cast-mark', 'mark', { stage: plain('housing-off') }),
    feature('shaft.end', 'choice', {
      options: [
        { id: '6', name: '6 mm' },
        { id: '7', name: '7 mm' },
      ],
      stage: plain('stripped'),
    }),
    feature('shaft.bearing', 'choice', {
      options: [
        { id: 'journal', name: 'journal' },
        { id: 'cartridge', name: 'cartridge' },
      ],
      stage: plain('stripped'),
    }),
    feature('shaft.weld', 'choice', {
      options: [
        { id: 'beam', name: 'electron beam' },
        { id: 'friction', name: 'friction' },
      ],
    }),
    feature('shaft.welded-patch', 'presence', {
      remarks: [
        { value: { kind: 'presence', present: true }, sentence: 'A welded patch shows repair, not origin.', source: plain('made-up') },
      ],
    }),
    feature('plate.number', 'mark'),
    feature('plate.trade-name', 'mark'),
  ],
  joints: [
    {
      id: 'contour',
      name: 'wheel in housing',
      a: 'wheel-tip',
      b: 'housing-bore',
      rules: [{ kind: 'wheel to contour', pairs: [{ wheel: 'wheel.tip', housing: 'housing.bore', way: 'radial', min: 0.1, max: 1 }] }],
      source: 'made-up',
    },
    {
      id: 'stub',
      name: 'wheel on shaft',
      a: 'wheel-bore',
      b: 'shaft-end',
      rules: [{ kind: 'same', what: 'bore', a: 'wheel.bore', b: 'shaft.end' }],
      source: 'made-up',
    },
  ],
  makers: [
    {
      id: 'quayside',
      name: 'Quayside',
      tradeNames: [
        { name: 'Quay Air', from: 1960, to: 1980 },
        { name: 'Quayside', from: 1980, to: null },
      ],
      plateRule: true,
      grammar: {
        tokens: [
          { id: 'fish', name: 'fish', before: '', optional: false, reads: { kind: 'word', words: ['Cod', 'Ling'] }, promises: [] },
          {
            id: 'size',
            name: 'running size',
            before: ' ',
            optional: false,
            reads: { kind: 'whole number', from: 1, to: 9 },
            promises: [{ feature: 'wheel.tip', kind: 'measure', of: { '1': 40, '2': 44, '3': 50 }, within: 0.5 }],
          },
          {
            id: 'bearing',
            name: 'bearing word',
            before: ' ',
            optional: true,
            reads: { kind: 'word', words: ['Cartridge'] },
            promises: [{ feature: 'shaft.bearing', kind: 'choice', of: { Cartridge: ['cartridge'] } }],
          },
        ],
        demands: [
          {
            when: { token: 'fish', is: ['Ling'] },
            // biome-ignore lint/suspicious/noThenProperty: a demand's `then` is data, never called
            then: { token: 'bearing', present: true },
            because: 'every Ling has a cartridge, and its name says so',
          },
        ],
      },
      source: 'made-up',
    },
  ],
  families: [
    {
      id: 'cod',
      name: 'Cod',
      maker: 'quayside',
      from: 1960,
      to: null,
      descendsFrom: [],
      succeeds: [],
      patternOf: [],
      about: '',
      source: 'made-up',
    },
    {
      id: 'ling',
      name: 'Ling',
      maker: 'quayside',
      from: 1970,
      to: null,
      descendsFrom: ['cod'],
      succeeds: [],
      patternOf: [],
      about: '',
      source: 'made-up',
    },
    {
      id: 'back-lane',
      name: 'Back Lane',
      maker: null,
      from: null,
      to: null,
      descendsFrom: [],
      succeeds: [],
      patternOf: ['ling'],
      about: '',
      source: 'made-up',
    },
  ],
  generations: [],
  models: [
    {
      id: 'cod-1',
      name: 'Cod 1',
      family: 'cod',
      generation: null,
      patternOf: null,
      from: 1960,
      to: null,
      allowed: [
        allow('housing', 'cod'),
        allow('housing', 'cod-wide', 'option'),
        allow('wheel', 'cod'),
        allow('shaft', 'journal-old'),
        allow('plate', 'cod'),
      ],
      source: 'made-up',
    },
    {
      id: 'ling-3-cartridge',
      name: 'Ling 3 Cartridge',
      family: 'ling',
      generation: null,
      patternOf: null,
      from: 1970,
      to: null,
      allowed: [allow('housing', 'ling'), allow('wheel', 'ling'), allow('shaft', 'cartridge'), allow('plate', 'ling')],
      source: 'made-up',
    },
    {
      id: 'lane-3',
      name: 'Back Lane 3',
      family: 'back-lane',
      generation: null,
      patternOf: 'ling-3-cartridge',
      from: null,
      to: null,
      allowed: [allow('wheel', 'lane'), allow('shaft', 'lane')],
      source: 'made-up',
    },
  ],
  parts: [
    part('housing/cod', 'quayside', { 'housing.cast-name': letters('QUAY AIR', 'QUAYSIDE'), 'housing.bore': mm(40.6) }),
    part('housing/cod-wide', 'quayside', { 'housing.cast-name': letters('QUAYSIDE'), 'housing.bore': mm(41) }),
    part('housing/ling', 'quayside', { 'housing.cast-name': letters('QUAYSIDE'), 'housing.bore': mm(50.6) }),
    part('wheel/cod', 'quayside', {
      'wheel.blades': count(8),
      'wheel.tip': mm(40),
      'wheel.bore': choice('6'),
      'wheel.cast-mark': letters('QUAYSIDE'),
    }),
    part('wheel/ling', 'quayside', {
      'wheel.blades': count(6),
      'wheel.tip': mm(50),
      'wheel.bore': choice('7'),
      'wheel.cast-mark': letters('QUAYSIDE'),
    }),
    part('wheel/lane', null, { 'wheel.blades': count(7), 'wheel.tip': mm(50), 'wheel.bore': choice('7'), 'wheel.cast-mark': noLetters }),
    part('shaft/journal-old', 'quayside', { 'shaft.end': choice('6'), 'shaft.bearing': choice('journal') }),
    part(
      'shaft/journal-new',
      'quayside',
      { 'shaft.end': choice('6'), 'shaft.bearing': choice('journal') },
      plain({ supersedes: 'shaft/journal-old' }),
    ),
    part('shaft/cartridge', 'quayside', { 'shaft.end': choice('7'), 'shaft.bearing': choice('cartridge'), 'shaft.weld': choice('beam') }),
    part('shaft/lane', null, { 'shaft.end': choice('7'), 'shaft.bearing': { kind: 'not known' }, 'shaft.weld': choice('friction') }),
    part('plate/cod', 'quayside', { 'plate.number': letters('4-40'), 'plate.trade-name': letters('Quay Air', 'Quayside') }),
    part('plate/ling', 'quayside', { 'plate.number': letters('5-50'), 'plate.trade-name': letters('Quayside') }),
  ],
});

const seenSure: Sure = { kind: 'seen' };

/** The little atlas with these promises in the place of those of a token. */
export const promising = (token: string, ...promises: unknown[]) =>
  compileAtlas({
    ...littleAtlas,
    makers: littleAtlas.makers.map(
      (maker): Maker => ({
        ...maker,
        grammar: maker.grammar && {
          ...maker.grammar,
          tokens: maker.grammar.tokens.map((each) =>
            String(each.id) === token ? { ...each, promises: promises as TokenPromise[] } : each,
          ),
        },
      }),
    ),
  });

/** One observation: `saw('wheel.blades', { kind: 'count', from: 8, to: 8 })`. */
export const saw = (id: string, value: Seen, sure: Sure = seenSure): Observation =>
  plain<Observation>({
    id: `${id}=${JSON.stringify(value)}${sure.kind === 'told' ? '?' : ''}`,
    slot: id.split('.')[0],
    feature: id,
    value,
    sure,
  });

export const blades = (n: number): Observation => saw('wheel.blades', { kind: 'count', from: n, to: n });
export const measured = (id: string, value: number, u = 0.02): Observation => saw(id, { kind: 'measure', value }, { kind: 'measured', u });
export const chose = (id: string, option: string): Observation => saw(id, { kind: 'choice', option });
export const marked = (id: string, text: string | null): Observation => saw(id, { kind: 'mark', text });

export const sheetOf = (observations: readonly Observation[], rest: Partial<Sheet> = {}): Sheet =>
  plain<Sheet>({
    id: 'sheet',
    title: '',
    story: '',
    kind: 'found',
    claimed: null,
    claimedMaker: null,
    observations,
    absent: [],
    chosen: {},
    ...rest,
  });
