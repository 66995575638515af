import { z } from 'zod';
import {
  type Answer,
  type Clause,
  type Conflicts,
  type Finding,
  type HousingOrigin,
  type Member,
  type Name,
  type NameAnswer,
  type Reading,
  type Reason,
  rungs,
  type SlotAnswer,
  type SwapSets,
  type Truth,
} from '../../reasoner/index.ts';

/**
 * The shape of what `kinplate verdict --format json` prints, as a schema from which `kinplate schema` makes JSON Schema.
 * The types at the foot of the page hold it to the reasoner's own, in both directions: a field added there and not here does not compile.
 */
const id = <T extends string>(what: string): z.ZodType<T> => z.string().describe(what) as unknown as z.ZodType<T>;
const list = <T extends z.ZodType>(of: T) => z.array(of).readonly();

const slotId = id<SlotAnswer['slot']>('a slot of the atlas');
const partId = id<SlotAnswer['candidates'][number]>('a part of the atlas');
const jointId = id<Extract<Member, { kind: 'joint' }>['joint']>('a joint of the atlas');
const operationId = id<SlotAnswer['machined'][number]['told'][number]['operations'][number]>('an operation of the atlas');
const featureId = id<SlotAnswer['silent'][number]['features'][number]>('a feature of the atlas');
const observationId = id<Extract<Member, { kind: 'observation' }>['observation']>('an observation of the sheet');
const nameId = id<Name['id']>('a name judged in this verdict');
const modelId = id<Name['models'][number]>('a model of the atlas');
const familyId = id<NonNullable<Name['family']>>('a family of the atlas');
const makerId = id<NonNullable<Name['maker']>>('a maker of the atlas');
const stageId = id<NonNullable<Conflicts['found'][number]['stage']>>('a strip-down stage of the atlas');
const tokenId = id<Reading['tokens'][number]['token']>('a token of the maker’s name grammar');
const sheetId = id<Answer['sheet']>('the sheet judged');

const truth = z.enum(['holds', 'fails', 'not known']) satisfies z.ZodType<Truth>;
const status = z.enum(['ruled out', 'open', 'stands']).describe('N1, N2, N3');

const member = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('observation'), observation: observationId }),
    z.strictObject({ kind: z.literal('absent'), slot: slotId }),
    z.strictObject({ kind: z.literal('joint'), joint: jointId }),
    z.strictObject({ kind: z.literal('rule'), name: nameId, slot: slotId }),
  ])
  .meta({ id: 'member', description: 'A member of a conflict: an observation, an absence, a joint, or a name’s demand on one slot (K1)' });

export const independent = z
  .strictObject({ count: z.int(), exact: z.boolean().describe('false: at least so many') })
  .describe('the most conflicts no two of which share an entry, all absences being one entry (K1)');

const conflicts = z
  .strictObject({
    found: list(
      z.strictObject({
        members: list(member),
        slots: list(slotId),
        minutes: z.number().describe('minutes of strip-down to see all of it'),
        stage: stageId.nullable(),
        sentence: z.string(),
      }),
    ),
    complete: z.boolean().describe('false when the enumeration stopped at one of its bounds'),
    independent,
  })
  .meta({
    id: 'conflicts',
    description:
      'Minimal conflicts, the most telling first (K1): last those that rest on an absence or the plate; before them those of the unit with itself; then fewest members, then those seen earliest',
  });

const swaps = z
  .strictObject({
    found: list(
      z.strictObject({
        slots: list(slotId),
        parts: list(
          z.strictObject({
            slot: slotId,
            parts: list(partId).describe('those that drop in first; none: no listed part is known to do it'),
            needs: list(
              z.strictObject({
                parts: list(partId),
                fit: z.enum(['measure and choose', 'after work', 'depends', 'not known', 'not looked into', 'will not fit']),
                minutes: z.number().describe('of the works that have to be done whatever the neighbours are'),
                sentences: list(z.string()),
              }),
            ).describe('what the parts that do not simply drop in need before they go on'),
          }),
        ),
        plates: list(slotId).describe('nameplates among the slots: nothing to exchange, only the maker can confirm or issue one'),
        minutes: z.number().describe('strip-down, exchange and work; a plate takes none'),
        work: z.number().describe('of these, minutes of the work it takes at the least'),
        leaves: status.describe('the name judged anew with the swap made; ruled out: the swap is not enough by itself'),
      }),
    ),
    complete: z.boolean().describe('false when the enumeration stopped at its limit'),
  })
  .meta({
    id: 'swapSets',
    description:
      'Minimal sets of slots whose parts would have to be others before the name is no longer ruled out (S1): cheapest first, then those not enough by themselves, last those with a plate',
  });

const housingOrigin = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('own') }),
  z.strictObject({ kind: z.literal('own family'), family: familyId }),
  z.strictObject({ kind: z.literal('family'), family: familyId }),
  z.strictObject({ kind: z.literal('unidentified') }),
]);

const name = z
  .strictObject({
    id: nameId,
    rung: z.enum(rungs).describe('the rung of the ladder (N4)'),
    maker: makerId.nullable(),
    text: z.string(),
    models: list(modelId),
    family: familyId.nullable(),
    housings: list(z.strictObject({ slot: slotId, origin: housingOrigin })),
  })
  .meta({ id: 'name', description: 'A name the parts might carry' });

const nameAnswer = z
  .strictObject({
    name,
    status,
    unsettled: list(slotId).describe('for an open name: slots that are doubtful, or where allowed and other candidates remain'),
    lacks: list(slotId).describe(
      'for an open name: slots where the atlas’s list is open-ended and does not say whether what may be there belongs',
    ),
    conflicts: conflicts.nullable(),
    swaps: swaps.nullable(),
  })
  .meta({ id: 'nameAnswer' });

const slotAnswer = z
  .strictObject({
    slot: slotId,
    candidates: list(partId).describe('listed parts that remain; the unlisted part always remains beside them (C1)'),
    listed: z.int(),
    removedByObservations: z.int(),
    removedByJoints: list(
      z.strictObject({
        part: partId,
        because: z.discriminatedUnion('kind', [
          z.strictObject({ kind: z.literal('joint'), joint: jointId, other: slotId }),
          z.strictObject({ kind: z.literal('together') }),
        ]),
      }),
    ),
    machined: list(
      z.strictObject({ part: partId, told: list(z.strictObject({ observations: list(observationId), operations: list(operationId) })) }),
    ).describe(
      'candidates that have been machined, if one of them is what the slot holds: what was read of it is not as the part is made (O2)',
    ),
    silent: list(z.strictObject({ part: partId, features: list(featureId) })).describe('candidates the atlas is silent about (O3)'),
    numberNotListed: list(makerId)
      .nullable()
      .describe('of a plate whose number is well formed and not listed: whose it can be, beside the listed candidates (O5)'),
    doubtful: z.boolean(),
    absent: z.boolean(),
  })
  .meta({ id: 'slotAnswer' });

const era = z.strictObject({ from: z.int().nullable(), to: z.int().nullable() }).describe('years, both included; null is open');
const numberSays = z.enum(['part number', 'serial number']);
const on = { observations: list(observationId) };
const plateDisagreement = z
  .discriminatedUnion('kind', [
    z.strictObject({ ...on, kind: z.literal('not this maker’s number'), says: numberSays, maker: makerId, like: makerId.nullable() }),
    z.strictObject({ ...on, kind: z.literal('check digit'), maker: makerId, stamped: z.string(), wanted: z.string() }),
    z.strictObject({ ...on, kind: z.literal('trade name not in use'), name: z.string(), used: era, made: era }),
    z.strictObject({ ...on, kind: z.literal('years disagree'), serial: era, year: era }),
    z.strictObject({ ...on, kind: z.literal('number of another slot'), slot: slotId, parts: list(partId) }),
    z.strictObject({ ...on, kind: z.literal('superseded'), part: partId, by: partId, number: z.string().nullable() }),
    z.strictObject({
      ...on,
      kind: z.literal('number not listed'),
      makers: list(makerId),
      models: list(modelId),
      patterned: z.boolean(),
    }),
    z.strictObject({ ...on, kind: z.literal('not this bearing housing'), models: list(modelId), slot: slotId }),
    z.strictObject({ ...on, kind: z.literal('not the claimed model'), models: list(modelId), claimed: modelId }),
    z.strictObject({
      ...on,
      kind: z.literal('out of its time'),
      of: z.enum(['number', 'claim']),
      models: list(modelId),
      family: familyId,
      built: era,
      made: era,
    }),
  ])
  .meta({ id: 'plateDisagreement', description: 'What of a plate does not agree with what (O5), with the observations it rests on' });

const finding = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('told claim'), observation: observationId, truth: z.enum(['holds', 'fails']), sentence: z.string() }),
    z.strictObject({ kind: z.literal('not confirmed'), observations: list(observationId), sentence: z.string() }),
    z.strictObject({
      kind: z.literal('mark'),
      observation: observationId,
      slot: slotId,
      wouldBe: list(partId),
      reading: z.enum([
        'maker’s name on a pattern part',
        'no name where the maker casts one',
        'other letters',
        'maker’s plate on a pattern part',
      ]),
      sentence: z.string(),
    }),
    z.strictObject({ kind: z.literal('remark'), observation: observationId, sentence: z.string() }),
    z.strictObject({
      kind: z.literal('plate'),
      observations: list(observationId),
      disagreement: plateDisagreement.exactOptional(),
      sentence: z.string(),
    }),
    z.strictObject({
      kind: z.literal('machined'),
      slots: list(slotId).describe('whose part was machined; of two, one was, or both'),
      operations: list(operationId).describe('what could have been done'),
      observations: list(observationId),
      joint: jointId.nullable().describe('where it is a joint that tells'),
      sentence: z.string(),
    }),
    z.strictObject({ kind: z.literal('unlisted part'), slot: slotId, sentence: z.string() }),
  ])
  .meta({ id: 'finding', description: 'Something to be said beside the names' });

const reading = z
  .strictObject({
    maker: makerId.nullable(),
    verdict: z.enum([
      'a model of the atlas',
      'well formed, not in the atlas',
      'no name of this maker',
      'no maker’s name',
      'no rule to read it by',
    ]),
    model: modelId.nullable(),
    tokens: list(
      z.strictObject({
        token: tokenId,
        text: z.string(),
        promises: list(z.strictObject({ feature: featureId, sentence: z.string(), truth })),
      }),
    ),
    faults: list(z.string()),
    nearest: list(modelId),
  })
  .meta({ id: 'reading', description: 'The claimed name read by its grammar (N6)' });

const claimRead = {
  reading,
  name: nameId.nullable(),
  status,
  restsOn: list(observationId).describe(
    'entries each of which everything against the claim rests on: without it the claim is not ruled out (O7)',
  ),
  sentences: list(z.string()),
};

const reason = z
  .discriminatedUnion('kind', [
    ...member.options,
    z.strictObject({ kind: z.literal('name'), name: nameId }),
    z.strictObject({ kind: z.literal('claim') }),
    z.strictObject({ kind: z.literal('finding'), index: z.int() }),
    z.strictObject({ kind: z.literal('caution'), index: z.int() }),
  ])
  .meta({ id: 'reason', description: 'What a clause rests on; indexes count from 0 in findings and cautions' });

const clause = z.strictObject({ text: z.string(), because: list(reason) }).meta({ id: 'clause' });

const ifKept = z
  .strictObject({
    observation: observationId,
    aside: list(observationId),
    honest: list(z.strictObject({ name: nameId, text: z.string(), rung: z.enum(rungs) })),
    claim: z.strictObject({ name: nameId.nullable(), status }).nullable(),
    left: z.int().nullable().describe('listed parts of the slot that remain; null for a build on paper'),
    fit: z.enum(['drops in', 'after work', 'will not fit', 'not known']).nullable(),
    sentence: z.string(),
  })
  .meta({ id: 'ifKept', description: 'What would follow were one of the disagreeing entries the true one, the others set aside (O6)' });

const contradicted = z
  .strictObject({
    kind: z.literal('contradiction'),
    sheet: sheetId,
    edition: z.string(),
    contradictions: list(
      z.strictObject({
        observations: z.tuple([observationId, observationId]).readonly(),
        sentence: z.string(),
        meanings: z.tuple([ifKept, ifKept]).readonly().nullable().describe('null where too many entries disagree to judge each'),
      }),
    ),
  })
  .meta({
    id: 'contradiction',
    description: 'Observations of one feature that cannot both hold; nothing is reasoned until they are settled (O6)',
  });

const verdict = z
  .strictObject({
    kind: z.literal('verdict'),
    sheet: sheetId,
    edition: z.string().describe('the state of the atlas judged by'),
    findings: list(finding),
    slots: list(slotAnswer),
    unit: conflicts.describe('conflicts of the unit with itself, whatever the name'),
    names: list(nameAnswer).describe('every name judged, best rung first'),
    namesComplete: z.boolean().describe('false when more hybrids were open than are formed'),
    honest: list(nameId).describe('the highest rung that stands'),
    open: list(nameId).describe('open names on the highest level above the honest one that has any'),
    claim: z
      .strictObject({
        text: z.string(),
        ...claimRead,
        others: list(z.strictObject(claimRead)).describe('of a name several models bear: the readings that fare no better (A4)'),
      })
      .nullable(),
    ticket: z.strictObject({ may: list(clause), mustNot: list(clause) }),
    cautions: list(z.string()),
  })
  .meta({ id: 'verdict' });

export const verdictSchema = z.discriminatedUnion('kind', [contradicted, verdict]);
export const nameAnswerSchema = nameAnswer;

/** The JSON Schema (draft 2020-12) of what `kinplate verdict --format json` prints. */
export const verdictJsonSchema = () =>
  z.toJSONSchema(z.union([verdictSchema, nameAnswerSchema]).meta({ title: 'Kinplate verdict, format 1' }), { target: 'draft-2020-12' });

/** Equal in both directions, but for readonly. */
type Plain<T> = T extends string | number | boolean | null | undefined
  ? T
  : T extends readonly unknown[]
    ? { -readonly [K in keyof T]: Plain<T[K]> }
    : T extends object
      ? { -readonly [K in keyof T]: Plain<T[K]> }
      : T;
export type Same<A, B> = [Plain<A>] extends [Plain<B>] ? ([Plain<B>] extends [Plain<A>] ? true : never) : never;
const held: [
  Same<z.output<typeof verdictSchema>, Answer>,
  Same<z.output<typeof nameAnswer>, NameAnswer>,
  Same<z.output<typeof finding>, Finding>,
  Same<z.output<typeof reason>, Reason>,
  Same<z.output<typeof clause>, Clause>,
  Same<z.output<typeof swaps>, SwapSets>,
  Same<z.output<typeof housingOrigin>, HousingOrigin>,
] = [true, true, true, true, true, true, true];
void held;
