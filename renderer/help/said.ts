import type { KeyLine } from '../look/keys.ts';

/** A piece of what help says: plain words, a label as it stands on a screen, what is typed, or keys. */
export type Piece = string | Label | { readonly typed: string } | { readonly keys: KeyLine };

/** A label quoted from a screen. What stands in braces in `text` is filled in there: `Add a {part}`. */
export interface Label {
  readonly label: string;
}

export type Said = readonly Piece[];

/** Marks a label of a screen, so that it can be held against the sources: one that stands nowhere is a fault. */
export const label = (text: string): Label => ({ label: text });

/** How a label reads with what it is filled in with. */
export const readLabel = ({ label: text }: Label): string => text.replace(/[{}]/g, '');

export const typed = (text: string): Piece => ({ typed: text });

export const pressed = (line: KeyLine): Piece => ({ keys: line });

/** A sentence with labels and keys in it. */
export const say = (words: TemplateStringsArray, ...pieces: readonly Piece[]): Said =>
  words.flatMap((text, at) => [text, ...(pieces[at] === undefined ? [] : [pieces[at]])]).filter((piece) => piece !== '');
