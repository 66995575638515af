import { z } from 'zod';
import type { KeptSettings, Letterhead, ShopCounter, ShopMeasures, ShopMoney, ShopPeople, Version } from '../../db/answers.ts';
import { counterLetters } from '../../reasoner/plain/counter-letter.ts';
import { mostMoney } from '../../reasoner/plain/money.ts';
import { lengthUnits } from '../../reasoner/plain/units.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, madeAgainst, nothing } from './call.ts';

/** One line of print: no line ends, nothing before or behind it. */
export const plainLine = (max: number) =>
  z
    .string()
    .trim()
    .max(max)
    .refine((text) => isWellFormed(text) && !/\p{Cc}/u.test(text), { error: 'text on one line' });
export const whoWrites = plainLine(200).default('');

const letterhead = z.strictObject({ name: plainLine(200), lines: z.array(plainLine(200)).max(8).readonly() }) satisfies z.ZodType<
  Omit<Letterhead, 'logo'>
>;
export const moneyCode = z.string().regex(/^[A-Z]{3}$/, { error: 'three capital letters, as ISO 4217 has them' });
const money = z.strictObject({
  code: moneyCode,
  written: plainLine(20),
  before: z.boolean(),
  decimals: z.union([z.literal(0), z.literal(2), z.literal(3)]),
  hour: z.number().positive().max(mostMoney).nullable(),
}) satisfies z.ZodType<ShopMoney>;
const measures = z.strictObject({ unit: z.enum(lengthUnits), comma: z.boolean() }) satisfies z.ZodType<ShopMeasures>;
const people = z.strictObject({
  names: z
    .array(plainLine(80).refine((name) => name !== '', { error: 'a name' }))
    .max(100)
    .refine((names) => new Set(names).size === names.length, { error: 'each name once' })
    .readonly(),
}) satisfies z.ZodType<ShopPeople>;
const counter = z.strictObject({
  letter: z.enum(counterLetters as [string, ...string[]], { error: 'one capital letter from A to Z, but not I or O' }),
}) satisfies z.ZodType<ShopCounter>;

/** What is said under one key. */
export const settingSchema = z.discriminatedUnion('key', [
  z.strictObject({ key: z.literal('letterhead'), value: letterhead }),
  z.strictObject({ key: z.literal('money'), value: money }),
  z.strictObject({ key: z.literal('measures'), value: measures }),
  z.strictObject({ key: z.literal('people'), value: people }),
  z.strictObject({ key: z.literal('counter'), value: counter }),
]);

/** What the shop says of itself. */
export const settingsCalls = {
  'settings.all': call(nothing).returns<KeptSettings>(),
  /** Saves what is under one key, against its version (H5); a letterhead keeps its picture. Gives the new version. */
  'settings.save': call(z.strictObject({ setting: settingSchema, who: whoWrites, madeAgainst })).returns<Version>(),
  /** Puts a PNG or JPEG into the letterhead, base64, freed of all but the picture; null takes it out. */
  'settings.setLogo': call(
    z.strictObject({
      logo: z
        .strictObject({
          name: z.string().min(1).max(300),
          data: z
            .string()
            .min(1)
            .max(14_200_000)
            .regex(/^[A-Za-z0-9+/]*={0,2}$/),
        })
        .nullable(),
      who: whoWrites,
      madeAgainst,
    }),
  ).returns<Letterhead>(),
  /** The picture of the letterhead, base64. */
  'settings.logo': call(nothing).returns<{ readonly type: string; readonly data: string }>(),
} as const;
