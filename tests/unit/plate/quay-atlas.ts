import {
  type Atlas,
  answer,
  asId,
  type CompiledAtlas,
  compileAtlas,
  type Fact,
  type Name,
  type NumberPattern,
  type Observation,
  type Part,
  type PartId,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';
import { choice, count, feature, letters, marked, noLetters, saw, sheetOf } from '../reasoner/little-atlas.ts';

/**
 * A made-up atlas about plates, small enough to reason over by hand. A plate is riveted to a bearing housing, the turbine wheel runs in it, and a heat
 * shield is of service. Quayside and Harbour number their parts by patterns that are known; how Outland does nobody knows. A nameless workshop copies Ling.
 */
const plain = <T>(value: unknown): T => value as T;

const options = (...ids: string[]) => ({ options: ids.map((id) => ({ id, name: id })) });

const part = (slot: string, name: string, maker: string | null, facts: Record<string, Fact>, number = `${slot} ${name}`): Part =>
  plain<Part>({
    id: `${slot}/${name}`,
    slot,
    name: `${name} ${slot.replace('-', ' ')}`,
    maker,
    numbers: [number],
    facts,
    source: 'made-up',
  });

const numbers = { weights: [1, 3], modulus: 10, stamps: 'complement', ten: 'X' } as const;

/** Quayside: a letter for the slot, three figures and a check digit, a stroke and the issue. Figures 100 ask for 9, 200 for 8, 300 for 7, 777 for 5. */
const quaysideNumbers: NumberPattern = plain({
  id: 'quayside-part',
  name: 'part number',
  says: 'part number',
  from: null,
  to: null,
  pieces: [
    { before: '', kind: 'slot', codes: { P: 'plate', W: 'turbine-wheel', B: 'bearing-housing' } },
    { before: ' ', kind: 'digits', name: 'running number', count: 3 },
    { before: '-', kind: 'check digit', ...numbers },
    { before: '/', kind: 'digits', name: 'issue', count: 1, issue: true },
  ],
});

const quaysideSerials: NumberPattern = plain({
  id: 'quayside-serial',
  name: 'serial number',
  says: 'serial number',
  from: 1960,
  to: null,
  pieces: [
    { before: '', kind: 'fixed', text: 'S' },
    { before: ' ', kind: 'year', figures: 4 },
    { before: ' ', kind: 'digits', name: 'running number', count: 3 },
  ],
});

/** Harbour’s patterns have no code for the slot; the older was given up when Mole ended. */
const harbourNumbers: readonly NumberPattern[] = [
  plain({
    id: 'harbour-old',
    name: 'part number until 1990',
    says: 'part number',
    from: 1950,
    to: 1990,
    pieces: [
      { before: '', kind: 'fixed', text: 'HB' },
      { before: ' ', kind: 'digits', name: 'running number', count: 4 },
    ],
  }),
];

const plate = (name: string, maker: string, number: string, tradeNames: string[], holes: string): Part =>
  part(
    'plate',
    name,
    maker,
    {
      'plate.number': letters(number),
      'plate.trade-name': letters(...tradeNames),
      'plate.holes': choice(holes),
      'plate.fixing': choice('rivets'),
    },
    number,
  );

const housing = (name: string, maker: string | null, castName: Fact, ribs: number, hub: string, holes: string): Part =>
  part('bearing-housing', name, maker, {
    'bearing-housing.cast-name': castName,
    'bearing-housing.ribs': count(ribs),
    'bearing-housing.hub': choice(hub),
    'bearing-housing.holes': choice(holes),
  });

const wheel = (name: string, maker: string | null, blades: number, hub: string): Part =>
  part('turbine-wheel', name, maker, { 'turbine-wheel.blades': count(blades), 'turbine-wheel.hub': choice(hub) });

const shield = (name: string, maker: string | null, castMark: Fact): Part =>
  part('heat-shield', name, maker, { 'heat-shield.mark': castMark });

const maker = (id: string, name: string, more: object) => ({
  id,
  name,
  tradeNames: [{ name, from: null, to: null }],
  plateRule: true,
  grammar: null,
  source: 'made-up',
  ...more,
});

const grammar = (...words: string[]) => ({
  tokens: [
    { id: `family-${words[0]}`, name: 'family', before: '', optional: false, reads: { kind: 'word', words }, promises: [] },
    { id: `size-${words[0]}`, name: 'size', before: ' ', optional: false, reads: { kind: 'whole number', from: 1, to: 9 }, promises: [] },
  ],
  demands: [],
});

const family = (id: string, name: string, of: string | null, from: number | null, to: number | null) => ({
  id,
  name,
  maker: of,
  from,
  to,
  descendsFrom: [],
  succeeds: [],
  patternOf: [],
  about: '',
  source: 'made-up',
});

const model = (id: string, name: string, of: string, allowed: readonly (readonly [string, string, string?])[], more: object = {}) => ({
  id,
  name,
  family: of,
  generation: null,
  patternOf: null,
  from: null,
  to: null,
  source: 'made-up',
  allowed: allowed.map(([slot, name_, role]) => ({ slot, part: `${slot}/${name_}`, role: role ?? 'names' })),
  ...more,
});

export const quayAtlas: Atlas = plain<Atlas>({
  edition: 'quay',
  sources: [{ id: 'made-up', title: 'made up for a test', kind: 'invented' }],
  stages: [
    { id: 'as-received', name: 'as received', minutes: 0, after: [] },
    { id: 'stripped', name: 'core stripped', minutes: 40, after: ['as-received'] },
  ],
  slots: [
    { id: 'turbine-wheel', name: 'turbine wheel', group: 'core', stage: 'stripped', swapMinutes: 30 },
    { id: 'heat-shield', name: 'heat shield', group: 'core', stage: 'stripped', swapMinutes: 5 },
    { id: 'bearing-housing', name: 'bearing housing', group: 'core', stage: 'stripped', swapMinutes: 40 },
    { id: 'turbine-housing', name: 'turbine housing', group: 'housing', stage: 'as-received', swapMinutes: 10 },
    { id: 'plate', name: 'nameplate', group: 'plate', stage: 'as-received', swapMinutes: 5 },
  ],
  ports: [
    { id: 'wheel-hub', slot: 'turbine-wheel', name: 'hub' },
    { id: 'housing-hub', slot: 'bearing-housing', name: 'hub' },
    { id: 'housing-seat', slot: 'bearing-housing', name: 'plate seat' },
    { id: 'plate-holes', slot: 'plate', name: 'rivet holes' },
  ],
  features: [
    feature('turbine-wheel.blades', 'count', { unit: 'blades' }),
    feature('turbine-wheel.hub', 'choice', options('small', 'large')),
    feature('heat-shield.mark', 'mark'),
    feature('bearing-housing.cast-name', 'mark'),
    feature('bearing-housing.ribs', 'count', { unit: 'ribs' }),
    feature('bearing-housing.hub', 'choice', options('small', 'large')),
    feature('bearing-housing.holes', 'choice', options('two', 'three', 'four')),
    feature('turbine-housing.cast-name', 'mark'),
    feature('plate.number', 'mark', { name: 'part number', says: 'part number' }),
    feature('plate.trade-name', 'mark', { says: 'trade name' }),
    feature('plate.serial', 'mark', { name: 'serial number', says: 'serial number' }),
    feature('plate.year', 'count', { name: 'year of make', unit: 'year', says: 'year of make' }),
    feature('plate.holes', 'choice', options('two', 'three', 'four')),
    feature('plate.fixing', 'choice', options('rivets', 'glue')),
  ],
  joints: [
    {
      id: 'hub',
      name: 'turbine wheel in bearing housing',
      a: 'wheel-hub',
      b: 'housing-hub',
      rules: [{ kind: 'same', what: 'hub', a: 'turbine-wheel.hub', b: 'bearing-housing.hub' }],
      source: 'made-up',
    },
    {
      id: 'rivets',
      name: 'nameplate on bearing housing',
      a: 'plate-holes',
      b: 'housing-seat',
      rules: [{ kind: 'same', what: 'rivet holes', a: 'plate.holes', b: 'bearing-housing.holes' }],
      source: 'made-up',
    },
  ],
  makers: [
    maker('quayside', 'Quayside', {
      tradeNames: [
        { name: 'Quay Air', from: 1960, to: 1980 },
        { name: 'Quayside', from: 1980, to: null },
      ],
      numbering: [quaysideNumbers, quaysideSerials],
      grammar: grammar('Cod', 'Ling'),
    }),
    maker('harbour', 'Harbour', { numbering: harbourNumbers, grammar: grammar('Mole') }),
    maker('outland', 'Outland', {}),
  ],
  families: [
    family('cod', 'Cod', 'quayside', 1960, 1985),
    family('ling', 'Ling', 'quayside', 1980, null),
    family('mole', 'Mole', 'harbour', 1950, 1990),
    family('far', 'Far', 'outland', null, null),
    family('back-lane', 'Back Lane', null, null, null),
  ],
  generations: [],
  models: [
    model('cod-1', 'Cod 1', 'cod', [
      ['turbine-wheel', 'cod-1'],
      ['heat-shield', 'quayside', 'service'],
      ['heat-shield', 'no-name', 'service'],
      ['bearing-housing', 'cod'],
      ['turbine-housing', 'quayside'],
      ['plate', 'cod-1'],
    ]),
    model('cod-2', 'Cod 2', 'cod', [
      ['turbine-wheel', 'cod-2'],
      ['heat-shield', 'cod-2'],
      ['bearing-housing', 'cod'],
      ['turbine-housing', 'quay-air'],
      ['plate', 'cod-2'],
    ]),
    model('ling-1', 'Ling 1', 'ling', [
      ['turbine-wheel', 'ling'],
      ['heat-shield', 'quayside', 'service'],
      ['bearing-housing', 'ling'],
      ['turbine-housing', 'quayside'],
      ['plate', 'ling'],
    ]),
    model('mole-1', 'Mole 1', 'mole', [
      ['turbine-wheel', 'mole'],
      ['heat-shield', 'harbour', 'service'],
      ['bearing-housing', 'mole'],
      ['turbine-housing', 'harbour'],
      ['plate', 'mole'],
    ]),
    model('far-1', 'Far 1', 'far', [
      ['turbine-wheel', 'far'],
      ['heat-shield', 'no-name', 'service'],
      ['bearing-housing', 'far'],
      ['turbine-housing', 'outland'],
      ['plate', 'far'],
    ]),
    model(
      'lane-1',
      'Back Lane 1',
      'back-lane',
      [
        ['turbine-wheel', 'lane'],
        ['heat-shield', 'no-name', 'service'],
        ['bearing-housing', 'lane'],
      ],
      { patternOf: 'ling-1' },
    ),
  ],
  parts: [
    wheel('cod-1', 'quayside', 9, 'small'),
    wheel('cod-2', 'quayside', 10, 'small'),
    wheel('ling', 'quayside', 11, 'large'),
    wheel('mole', 'harbour', 12, 'large'),
    wheel('far', 'outland', 13, 'small'),
    wheel('lane', null, 14, 'large'),
    shield('quayside', 'quayside', letters('QUAYSIDE')),
    shield('cod-2', 'quayside', letters('QUAY 2')),
    shield('no-name', null, noLetters),
    shield('harbour', 'harbour', letters('HARBOUR')),
    housing('cod', 'quayside', letters('QUAY AIR', 'QUAYSIDE'), 4, 'small', 'two'),
    housing('ling', 'quayside', letters('QUAYSIDE'), 5, 'large', 'four'),
    housing('mole', 'harbour', letters('HARBOUR'), 6, 'large', 'three'),
    housing('far', 'outland', letters('OUTLAND'), 7, 'small', 'two'),
    housing('lane', null, noLetters, 5, 'large', 'four'),
    part('turbine-housing', 'quayside', 'quayside', { 'turbine-housing.cast-name': letters('QUAYSIDE') }),
    part('turbine-housing', 'quay-air', 'quayside', { 'turbine-housing.cast-name': letters('QUAY AIR') }),
    part('turbine-housing', 'harbour', 'harbour', { 'turbine-housing.cast-name': letters('HARBOUR') }),
    part('turbine-housing', 'outland', 'outland', { 'turbine-housing.cast-name': letters('OUTLAND') }),
    plate('cod-1', 'quayside', 'P 100-9/1', ['Quay Air', 'Quayside'], 'two'),
    plate('cod-2', 'quayside', 'P 200-8/1', ['Quay Air', 'Quayside'], 'two'),
    plate('ling', 'quayside', 'P 300-7/1', ['Quayside'], 'four'),
    plate('mole', 'harbour', 'HB 4000', ['Harbour'], 'three'),
    plate('far', 'outland', 'X-1', ['Outland'], 'two'),
  ],
});

export const quay: CompiledAtlas = compileAtlas(quayAtlas);

export const blades = (n: number): Observation => saw('turbine-wheel.blades', { kind: 'count', from: n, to: n });
export const ribs = (n: number): Observation => saw('bearing-housing.ribs', { kind: 'count', from: n, to: n });
export const year = (n: number): Observation => saw('plate.year', { kind: 'count', from: n, to: n });
export const number = (text: string): Observation => marked('plate.number', text);
export const tradeName = (text: string | null): Observation => marked('plate.trade-name', text);
export const serial = (text: string): Observation => marked('plate.serial', text);
export const castName = (text: string | null): Observation => marked('bearing-housing.cast-name', text);
export const housingName = (text: string | null): Observation => marked('turbine-housing.cast-name', text);

export const verdictIn =
  (atlas: CompiledAtlas) =>
  (observations: readonly Observation[], rest: Partial<Sheet> = {}): Verdict => {
    const found = answer(atlas, sheetOf(observations, rest), { explain: 'claim' });
    if (found.kind !== 'verdict') throw new Error('this unit contradicts itself');
    return found;
  };

export const verdictOn = verdictIn(quay);

/** The weakest name that still says the unit is the model. */
export const modelName = (verdict: Verdict, id: string) =>
  verdict.names.find(({ name }) => name.rung === 'model with service parts replaced' && name.models.includes(asId(id)));
export const statusOf = (verdict: Verdict, id: string) => modelName(verdict, id)?.status;
export const standing = (verdict: Verdict): readonly Name[] =>
  verdict.names.flatMap(({ name, status }) => (status === 'stands' ? [name] : []));
export const partIds = (...ids: string[]): PartId[] => ids.map((id) => asId<PartId>(id));
export const plateSentences = (verdict: Verdict): string[] =>
  verdict.findings.flatMap((finding) => (finding.kind === 'plate' ? [finding.sentence] : []));
