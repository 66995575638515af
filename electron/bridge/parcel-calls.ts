import { z } from 'zod';
import type { ParcelSeen, TakenInCase } from '../../db/answers.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { call, id } from './call.ts';
import { filePart as part, fileToken as token } from './file-parts.ts';

/** The one file that holds a whole case with its photographs, out and in. It crosses in parts; the desk holds it until it was fetched or taken in. */
export const parcelCalls = {
  /** Makes the file of a case. It is fetched with `parcel.part`, part 0 first. */
  'parcel.write': call(z.strictObject({ sheet: id<SheetId>() })).returns<{
    readonly token: string;
    readonly name: string;
    readonly parts: number;
  }>(),
  'parcel.part': call(z.strictObject({ token, part: z.int().min(0).max(1000) })).returns<{ readonly data: string }>(),
  /** Hands in a file by parts: the first without a token, every other with the token it got. Gives how many bytes are here. */
  'parcel.handIn': call(z.strictObject({ token: token.nullable(), name: z.string().min(1).max(300), data: part })).returns<{
    readonly token: string;
    readonly bytes: number;
  }>(),
  /** What a file that was handed in holds, verified, beside the case that is here under the same sheet. */
  'parcel.look': call(z.strictObject({ token })).returns<ParcelSeen>(),
  /** Takes it in, whole or not at all; `as`: under another id than its sheet's, where that one is here already. */
  'parcel.takeIn': call(
    z.strictObject({ token, as: id<SheetId>().nullable(), who: z.string().max(200).default('') }),
  ).returns<TakenInCase>(),
} as const;
