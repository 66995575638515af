/** How one option of a command is written, and what is read of it. `shown`: how help writes it; null where the help's own words or its end do. */
export type OptionSpec =
  | { readonly kind: 'text'; readonly value: string; readonly shown?: string | null }
  | { readonly kind: 'list'; readonly value: string; readonly shown?: string | null }
  /** One of some words, the first where it is not given. */
  | { readonly kind: 'among'; readonly words: readonly string[]; readonly shown?: string | null }
  | { readonly kind: 'flag'; readonly shown?: string | null };

export type OptionSpecs = Readonly<Record<string, OptionSpec>>;

type ValueOf<Spec extends OptionSpec> = Spec extends { readonly kind: 'among'; readonly words: readonly (infer Word)[] }
  ? Word
  : Spec extends { readonly kind: 'flag' }
    ? boolean
    : Spec extends { readonly kind: 'list' }
      ? readonly string[]
      : string | undefined;

/** The options of a command as they were read: none of a list is an empty one. */
export type ValuesOf<Specs extends OptionSpecs> = { readonly [Name in keyof Specs]: ValueOf<Specs[Name]> };

/** Which atlas a command is about: packs read into memory for this once, or the atlas of a data folder. */
export const atlasOptions = {
  pack: { kind: 'list', value: '<folder>', shown: null },
  data: { kind: 'text', value: '<folder>', shown: null },
} as const satisfies OptionSpecs;

/** For what only ever works on a data folder. */
export const dataOption = { data: { kind: 'text', value: '<folder>' } } as const satisfies OptionSpecs;

/** A sheet file (`-` for standard input), or the id of a sheet the atlas holds. */
export const sheetOptions = {
  sheet: { kind: 'text', value: '<file>', shown: '--sheet <file>' },
  saved: { kind: 'text', value: '<id>', shown: null },
} as const satisfies OptionSpecs;

/** Who does what is done. */
export const whoOption = { who: { kind: 'text', value: '<who>' } } as const satisfies OptionSpecs;
/** The same with why, for a change of the atlas. */
export const sayingOptions = { ...whoOption, why: { kind: 'text', value: '<why>' } } as const satisfies OptionSpecs;

export const formatOption = { format: { kind: 'among', words: ['text', 'json'] } } as const satisfies OptionSpecs;

export type AtlasChoice = ValuesOf<typeof atlasOptions>;
export type SheetChoice = ValuesOf<typeof sheetOptions>;

/** How help writes an option of this name; null where it does not. */
export const optionInHelp = (name: string, spec: OptionSpec): string | null => {
  if (spec.shown !== undefined) return spec.shown;
  switch (spec.kind) {
    case 'flag':
      return `[--${name}]`;
    case 'text':
      return `[--${name} ${spec.value}]`;
    case 'list':
      return `[--${name} ${spec.value} …]`;
    case 'among':
      return `[--${name} ${spec.words.join('|')}]`;
  }
};
