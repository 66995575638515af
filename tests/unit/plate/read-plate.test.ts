import { describe, expect, test } from 'vitest';
import {
  accusesPlate,
  answer,
  asId,
  compileAtlas,
  type Maker,
  type Observation,
  type PlateDisagreement,
  readPlate,
  type Sheet,
} from '../../../reasoner/index.ts';
import { demo, demoAtlas, demoPack } from '../seed/demo-atlas.ts';

type Says = {
  readonly number?: string;
  readonly name?: string;
  readonly serial?: string;
  readonly year?: number;
  readonly claimed?: string;
};

const plate = ({ number, name, serial, year, claimed }: Says, sure: Observation['sure'] = { kind: 'seen' }): Sheet => {
  const mark = (id: string, feature: string, text: string | undefined): Observation[] =>
    text === undefined ? [] : [{ id: asId(id), slot: asId('nameplate'), feature: asId(feature), value: { kind: 'mark', text }, sure }];
  return {
    id: asId('plate'),
    title: '',
    story: '',
    kind: 'found',
    claimed: claimed ?? null,
    claimedMaker: null,
    observations: [
      ...mark('number', 'nameplate-number', number),
      ...mark('name', 'nameplate-trade-name', name),
      ...mark('serial', 'nameplate-serial-text', serial),
      ...(year === undefined
        ? []
        : [
            {
              id: asId<Observation['id']>('year'),
              slot: asId<Observation['slot']>('nameplate'),
              feature: asId<Observation['feature']>('nameplate-year'),
              value: { kind: 'count', from: year, to: year } as const,
              sure,
            },
          ]),
    ],
    absent: [],
    chosen: {},
  };
};
const disagreements = (says: Says): readonly PlateDisagreement[] => readPlate(demo, plate(says)).disagreements;
/** Kinds, each with what it rests on. */
const named = (says: Says) => disagreements(says).map(({ kind, observations }) => `${kind}: ${observations.join(', ')}`);

describe('[O5] number, trade name, serial and era must agree', () => {
  test('[O5] a plate in order: its number, name, serial and year agree, and nothing is said', () => {
    expect(
      named({
        number: 'FLAG 76736/1',
        name: 'Merrowby Rotating Machines',
        serial: 'R 0307 41377 2',
        year: 2003,
        claimed: 'Petrel 13 Cartridge',
      }),
    ).toEqual([]);
  });

  test.each<[string, Says, string[]]>([
    ['a number another maker makes so', { number: '10/8804', name: 'Lisle-Merrowby' }, ['not this maker’s number: name, number']],
    ['a number nobody makes so', { number: 'ZZ 1', name: 'Lisle-Merrowby' }, ['not this maker’s number: name, number']],
    ['a serial another maker makes so', { serial: 'BK 100200-9', name: 'Merrowby' }, ['not this maker’s number: name, serial']],
    ['one figure of the serial wrong', { serial: 'R 0307 41378 2', name: 'Merrowby Rotating Machines' }, ['check digit: serial']],
    ['a trade name given up before the year', { name: 'Lisle Air Engines', year: 1998 }, ['trade name not in use: name, year']],
    [
      'a trade name not yet taken when the serial was stamped',
      { name: 'Merrowby', serial: 'L 4417/63' },
      ['trade name not in use: name, serial'],
    ],
    ['serial and year', { name: 'Lisle-Merrowby', serial: 'KC-4471-2', year: 1990 }, ['years disagree: serial, year']],
    ['a wheel’s number on a plate', { number: 'SAIL 12000/1' }, ['number of another slot: number']],
    ['a wheel’s number on a plate, of a wheel the atlas does not list', { number: 'OAR 00001/1' }, ['number of another slot: number']],
    ['a year before the model was built', { number: 'FLAG 76736/1', year: 1981 }, ['out of its time: number, year']],
    [
      'a number of another model than the claim',
      { number: 'FLAG 76736/1', claimed: 'Skua 13 Cartridge' },
      ['not the claimed model: number'],
    ],
    ['a claim younger than the plate', { year: 1961, claimed: 'Merrowby Skua 13 Cartridge' }, ['out of its time: year']],
  ])('[O5] %s', (_, says, expected) => {
    expect(named(says)).toEqual(expected);
  });

  test('[O5] a superseded number is followed to the last of its chain', () => {
    const [, superseded] = disagreements({ number: 'OAR 30352/1' });
    expect(superseded).toMatchObject({
      kind: 'superseded',
      part: 'merrowby-petrel-13-compressor-wheel',
      by: 'merrowby-petrel-13-compressor-wheel-c',
      number: 'OAR 30352/3',
    });
    expect(named({ number: 'OAR 30352/3' })).toEqual(['number of another slot: number']);
  });

  test('[O5] a pattern that is not known is not known, and never a fault', () => {
    expect(named({ serial: 'anything at all 12', name: 'Osterhal Diesel' })).toEqual([]);
    expect(named({ serial: 'ZZZ' })).toEqual([]);
    expect(named({ number: 'ZZZ' })).toEqual([]);
    const nobody = compileAtlas({ ...demoAtlas, makers: demoAtlas.makers.map(({ numbering: _, ...maker }): Maker => maker) });
    const { disagreements: told } = readPlate(nobody, plate({ number: 'ZZ 1', serial: 'R 0307 41378 2', name: 'Merrowby' }));
    expect(told.map((one) => [one.kind, accusesPlate(one)])).toEqual([['number not listed', false]]);
  });

  test('[O1] what is only told of a plate is not read', () => {
    expect(readPlate(demo, plate({ name: 'Lisle Air Engines', year: 1998 }, { kind: 'told' }))).toEqual({ stamped: [], disagreements: [] });
  });

  test('[A5] letters that cannot be read with two figures of a year before a pattern began are no year', () => {
    expect(named({ name: 'Lisle Air Engines', serial: 'L 4417/75' })).toEqual(['not this maker’s number: name, serial']);
  });
});

describe('[O5] the plate in the verdict', () => {
  const verdict = (start: string) => {
    const sheet = demoPack.sheets.find(({ id }) => id.startsWith(start)) as Sheet;
    const given = answer(demo, sheet, { explain: 'none' });
    if (given.kind !== 'verdict') throw new Error(`${start} is contradictory`);
    return given;
  };

  test('[O5] s30: five disagreements, each named in a sentence with what it rests on', () => {
    const { findings } = verdict('s30');
    const plates = findings.flatMap((finding) => (finding.kind === 'plate' && finding.disagreement !== undefined ? [finding] : []));
    expect(plates.map(({ disagreement }) => disagreement?.kind)).toEqual([
      'check digit',
      'trade name not in use',
      'years disagree',
      'not the claimed model',
      'out of its time',
    ]);
    expect(plates.map(({ sentence }) => sentence)).toEqual([
      'The serial number “R 0307 41377 3” is made as Merrowby makes them but for its check digit: 3 is stamped where the figures before it give 2. It was misread, or Merrowby did not stamp it.',
      'The trade name “Lisle-Merrowby” was in use 1974 to 1992, and the plate’s serial number tells 2003.',
      'The plate’s serial number tells 2003 and its year of make is 1989.',
      expect.stringMatching(
        /^The plate’s number “FLAG 76736\/1” is of Merrowby Petrel 13 Cartridge, not of Merrowby Skua 13 Cartridge, which the unit is offered as\.$/,
      ),
      expect.stringMatching(
        /^The plate’s number “FLAG 76736\/1” is of Merrowby Petrel 13 Cartridge, built \d+ to \d+, and the plate’s year of make tells 1989\.$/,
      ),
    ]);
  });

  test('[W1] the ticket does not let a plate that argues name the unit, and leads to every disagreement but those with the offer', () => {
    const { findings, ticket } = verdict('s30');
    const clause = ticket.mustNot.find(({ text }) => text.startsWith('This unit must not be named by its plate'));
    const reasons = clause?.because.flatMap((reason) => (reason.kind === 'finding' ? [reason.index] : []));
    expect(reasons).toEqual(
      findings.flatMap((finding, index) =>
        finding.kind === 'plate' && finding.disagreement && finding.disagreement.kind !== 'not the claimed model' ? [index] : [],
      ),
    );
  });

  test('[O5] s31: a wheel’s number, an old issue of it, and a serial of another maker', () => {
    const kinds = verdict('s31').findings.flatMap((finding) => (finding.kind === 'plate' ? (finding.disagreement?.kind ?? []) : []));
    expect(kinds).toEqual(['not this maker’s number', 'number of another slot', 'superseded']);
  });

  test('[O5] one disagreement is told once: the reader’s sentence takes the place of the atlas’s', () => {
    const plates = verdict('s16').findings.filter(({ kind }) => kind === 'plate');
    expect(plates.map(({ sentence }) => sentence)).toContain(
      'The trade name “Lisle Air Engines” was in use 1951 to 1974, and the plate’s year of make tells 1998.',
    );
    const sets = plates.map((finding) => (finding.kind === 'plate' ? [...finding.observations].sort().join() : ''));
    expect(new Set(sets).size).toBe(sets.length);
  });

  test('[O5] a plate of a model that never had such a bearing housing does not belong where it is', () => {
    const sheet = plate({ number: 'FLAG 76736/1' });
    const journal = demoAtlas.parts.find(({ id }) => id === 'merrowby-journal-bearing-housing');
    const cast = journal?.facts[asId<Observation['feature']>('bearing-housing-cast-mark')];
    if (cast?.kind !== 'mark') throw new Error('the journal bearing housing has a casting mark');
    const on: Sheet = {
      ...sheet,
      observations: [
        ...sheet.observations,
        {
          id: asId('cast'),
          slot: asId('bearing-housing'),
          feature: asId('bearing-housing-cast-mark'),
          value: { kind: 'mark', text: cast.anyOf[0] ?? '' },
          sure: { kind: 'seen' },
        },
      ],
    };
    const given = answer(demo, on, { explain: 'none' });
    const kinds = given.kind === 'verdict' ? given.findings.flatMap((finding) => (finding.kind === 'plate' ? [finding] : [])) : [];
    expect(kinds.map(({ disagreement, observations }) => [disagreement?.kind, observations])).toContainEqual([
      'not this bearing housing',
      ['number', 'cast'],
    ]);
  });
});
