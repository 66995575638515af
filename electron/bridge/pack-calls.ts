import { z } from 'zod';
import type { HeldPack, MappedWord, Signer, WordDispute, WordProposed } from '../../db/answers.ts';
import { vocabularyLists } from '../../db/packs/mapped-word.ts';
import { call, longCall, nothing, version } from './call.ts';
import { filePart, fileToken } from './file-parts.ts';

/** A pack that comes with the program. */
export interface ShippedPack {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly invented: boolean;
  readonly note: string;
  readonly leansOn: readonly string[];
}

/** A pack of the atlas with who signed it, as the shop calls the key; null where nobody did. */
export interface PackHeld extends HeldPack {
  readonly signer: { readonly name: string; readonly fingerprint: string } | null;
  /** How many of its words stand under ids of the atlas: it is held as mapped, and no longer as it was brought. */
  readonly mapped: number;
  /** Whether what was signed is what was brought, and not what is held. */
  readonly signedAsBrought: boolean;
}

export interface PacksHeld {
  readonly held: readonly PackHeld[];
  /** Those that come with the program and are not held. */
  readonly shipped: readonly ShippedPack[];
}

/** What a pack was put into the atlas with. */
export interface PackLoaded {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  /** False where the atlas held exactly this pack already. */
  readonly changed: boolean;
  /** The edition it took, or would take, the place of. */
  readonly replaced: string | null;
  readonly invented: boolean;
  readonly counts: { readonly models: number; readonly parts: number; readonly facts: number; readonly sheets: number };
  readonly change: readonly { readonly of: string; readonly added: number; readonly altered: number; readonly removed: number }[];
  /** Who signed what was read; null where nobody did. */
  readonly signer: Signer | null;
  /** How many of its words stand, or would stand, under ids of the atlas. */
  readonly mapped: number;
  /** Where the shop said otherwise than the edition that is held, and this one says a third thing. */
  readonly disputes: readonly WordDispute[];
  /** Packs it leans on that came, or would come, with it. */
  readonly with: readonly { readonly id: string; readonly edition: string }[];
}

/** A place in a pack, with what was found there. */
export interface PackRemark {
  readonly file: string;
  readonly row: number | null;
  readonly column: string | null;
  readonly found: string;
  /** What should stand there; of a remark, what follows from it. */
  readonly said: string;
  /** In how many places it is so. */
  readonly many: number;
}

/** A pack that was brought and looked at. Files that are none of a pack's are named and left alone. */
export type PackLooked =
  | {
      readonly sound: false;
      readonly faults: readonly PackRemark[];
      /** How many there are; not all are listed where there are very many. */
      readonly count: number;
      /** What somebody will have to decide once they are mended: who signed it, whose word holds. */
      readonly undecided: readonly PackRemark[];
      readonly remarks: readonly PackRemark[];
      readonly leftAlone: readonly string[];
      readonly words: readonly WordProposed[];
    }
  | {
      readonly sound: true;
      readonly pack: PackLoaded;
      readonly remarks: readonly PackRemark[];
      readonly leftAlone: readonly string[];
      /** Its words the atlas may have under other ids, as they were read here (P16). */
      readonly words: readonly WordProposed[];
    };

const wordId = z.string().min(1).max(100);
/** What somebody says of the words of a pack. Without it what is proposed is taken for said. */
export const saidWords = z
  .array(
    z.strictObject({
      list: z.enum(vocabularyLists),
      id: wordId,
      to: wordId.exactOptional(),
      as: wordId.exactOptional(),
      options: z.record(wordId, wordId.nullable()).exactOptional(),
    }),
  )
  .max(5000)
  .exactOptional() satisfies z.ZodType<readonly MappedWord[] | undefined>;

export const beginnings = ['empty', 'invented'] as const;
/** An atlas begins with the words of the trade alone, or with the invented world too. */
export type Beginning = (typeof beginnings)[number];

const id = z.string().min(1).max(200);
/** Somebody has asked about a signer the shop does not know, or another than before. A signature that does not hold nobody can let pass. */
const signerIsFine = z.boolean().default(false);

/** The packs the atlas is made of: begun with, brought in, taken out, written out. */
export const packCalls = {
  /** Puts packs that come with the program into an atlas that holds none; gives their titles. */
  'packs.begin': call(z.strictObject({ with: z.enum(beginnings) })).returns<readonly string[]>(),
  'packs.held': longCall(nothing).returns<PacksHeld>(),
  /** Puts in a pack that comes with the program, with what it leans on. */
  'packs.putIn': call(z.strictObject({ id })).returns<PackLoaded>(),
  /** Takes a pack out, its samples with it, unless it is no longer the one that was looked at. */
  'packs.takeOut': call(z.strictObject({ id, madeAgainst: version })).returns<null>(),
  /**
   * Hands in a part of one file of a pack, or of a ZIP of them, by its path in the folder that was chosen; the first without a token, every other with the token it
   * got. Parts of one file come in order. Gives how many bytes are here.
   */
  'packs.handIn': call(z.strictObject({ token: fileToken.nullable(), path: z.string().min(1).max(500), data: filePart })).returns<{
    readonly token: string;
    readonly bytes: number;
  }>(),
  /** What was handed in, read and held against the atlas; nothing is changed. */
  'packs.look': longCall(z.strictObject({ token: fileToken, signerIsFine, words: saidWords })).returns<PackLooked>(),
  /** Puts it into the atlas, all of it or nothing. `holds`: whose word is to stand where it disputes the shop's, cell by cell; one that is not decided is `pack-disputed`. */
  'packs.bring': call(
    z.strictObject({
      token: fileToken,
      signerIsFine,
      words: saidWords,
      holds: z.record(z.string().max(1000), z.enum(['shop', 'pack'])).default({}),
    }),
  ).returns<PackLoaded>(),
  /** What was handed in is not wanted. */
  'packs.leave': call(z.strictObject({ token: fileToken })).returns<null>(),
  /** Makes one file of a pack. It is fetched with `packs.part`, part 0 first. */
  'packs.write': call(z.strictObject({ id })).returns<{ readonly token: string; readonly name: string; readonly parts: number }>(),
  'packs.part': call(z.strictObject({ token: fileToken, part: z.int().min(0).max(1000) })).returns<{ readonly data: string }>(),
} as const;
