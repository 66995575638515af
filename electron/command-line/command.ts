import type { ExitCode } from './exit-codes.ts';
import type { OptionSpecs, ValuesOf } from './option.ts';
import type { Terminal } from './terminal.ts';

export interface Setting {
  /** The folder of the packs that come with the program. */
  readonly shipped: string;
  readonly now: () => Date;
  /** For a command that can stop and say what it has: from here on Ctrl-C only asks; what is given back tells whether it did. Never, unless said. */
  readonly listenForStop?: () => () => boolean;
}

/** What was asked of a command, as it was typed: its words after its name, and its options. */
export interface Asked<Specs extends OptionSpecs> {
  readonly words: readonly string[];
  readonly options: ValuesOf<Specs>;
}

/** One command, whole: its row in `commands.ts` is all that anything else knows of it. */
export interface Command<Specs extends OptionSpecs = OptionSpecs> {
  /** One word or two, as they are typed. */
  readonly name: string;
  /** The words it takes after its name; none where left out. */
  readonly words?: {
    readonly shown: string;
    readonly least: number;
    readonly most: number;
    /** What is said when there are fewer or more. */
    readonly otherwise: string;
  };
  /** What to do in place of a word, where it takes none: `name the sheet with --sheet`. */
  readonly inPlaceOfWords?: string;
  /** Every option it takes; any other is refused. */
  readonly options: Specs;
  /** What it does, a line each. */
  readonly help: readonly string[];
  run(asked: Asked<Specs>, terminal: Terminal, setting: Setting): Promise<ExitCode> | ExitCode;
}

/** Holds a command to its own options: what it is given to read is what it says it takes. */
export const command = <const Specs extends OptionSpecs>(row: Command<Specs>): Command => row as unknown as Command;
