import { parseArgs } from 'node:util';
import { buildPlanCommand } from './build-command.ts';
import { listCases, printCase } from './case-commands.ts';
import { type CompleteCommand, compareCommand, completeCommand } from './complete-command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fitCommand } from './fit-command.ts';
import { help } from './help.ts';
import { keyCommand } from './key-command.ts';
import { mend } from './mend-command.ts';
import { oddsCommand } from './odds-command.ts';
import { checkPack, exportPackTo, listPacks, loadPackInto } from './pack-commands.ts';
import { quizCommand } from './quiz-command.ts';
import { reportCommand } from './report-command.ts';
import { listSheets, printSheet } from './sheet-commands.ts';
import { sayUsage, type Terminal } from './terminal.ts';
import { triageCommand } from './triage-command.ts';
import { triageJsonSchema } from './triage-schema.ts';
import { verdictCommand } from './verdict-command.ts';
import { verdictJsonSchema } from './verdict-schema.ts';

export interface Setting {
  /** The folder of the packs that come with the program. */
  readonly shipped: string;
  readonly now: () => Date;
  /** Whether whoever asked wants it stopped; asked between two sheets of a triage. Never, unless said. */
  readonly stopped?: () => boolean;
}

/** Reads the command line and does what it says; resolves to the exit code. A bug throws. */
export const runKinplate = async (args: readonly string[], terminal: Terminal, setting: Setting): Promise<ExitCode> => {
  const read = readCommandLine(args);
  if (typeof read === 'string') return sayUsage(terminal, read);
  const { words, pack, data, sheet, saved, format = 'text', name } = read;
  if (read.help || words.length === 0) {
    terminal.out(help);
    return read.help ? exitCodes.stands : exitCodes.usage;
  }
  const [command, ...rest] = words;
  const choice = { packs: pack ?? [], data };
  if (choice.packs.length > 0 && data !== undefined)
    return sayUsage(terminal, 'Name packs with --pack, or a data folder with --data, not both.');

  if (command === 'triage') {
    const asked = triageFormats.find((each) => each === format);
    if (asked === undefined) return sayUsage(terminal, `--format is ${triageFormats.join(', ')} for a triage, not “${format}”.`);
    return rest[0] !== undefined && rest.length === 1
      ? triageCommand({ ...choice, from: rest[0], format: asked }, terminal, setting.stopped ?? (() => false))
      : sayUsage(terminal, 'triage takes a folder of sheets, or one table (.csv) or sheet file.');
  }
  if (format !== 'text' && format !== 'json') return sayUsage(terminal, `--format is text or json, not “${format}”.`);
  switch (command) {
    case 'verdict':
      if (rest.length > 0) return sayUsage(terminal, `verdict takes no “${rest[0]}”: name the sheet with --sheet.`);
      if ((sheet === undefined) === (saved === undefined))
        return sayUsage(terminal, 'Name one sheet: --sheet <file>, or --saved <id> for one the atlas holds.');
      return verdictCommand(
        { ...choice, format, name: name ?? null, sheet: sheet === undefined ? { saved: saved ?? '' } : { file: sheet } },
        terminal,
      );
    case 'odds':
      if (rest.length > 0) return sayUsage(terminal, `odds takes no “${rest[0]}”: name the sheet with --sheet.`);
      if ((sheet === undefined) === (saved === undefined))
        return sayUsage(terminal, 'Name one sheet: --sheet <file>, or --saved <id> for one the atlas holds.');
      return oddsCommand({ ...choice, format, sheet: sheet === undefined ? { saved: saved ?? '' } : { file: sheet } }, terminal);
    case 'report':
      if (rest.length > 0)
        return sayUsage(terminal, `report takes no “${rest[0]}”: name the sheet with --sheet, and the file to write with --pdf.`);
      if ((sheet === undefined) === (saved === undefined))
        return sayUsage(terminal, 'Name one sheet: --sheet <file>, or --saved <id> for one the atlas holds.');
      if (read.pdf === '') return sayUsage(terminal, '--pdf names the file to write.');
      return reportCommand(
        { ...choice, format, sheet: sheet === undefined ? { saved: saved ?? '' } : { file: sheet }, pdf: read.pdf ?? null },
        terminal,
        setting.now,
      );
    case 'fit':
      return rest[0] !== undefined && rest.length <= 2
        ? fitCommand({ ...choice, format, part: rest[0], other: rest[1] ?? null }, terminal)
        : sayUsage(terminal, 'fit takes one part or two, each by its id, a number it was sold under, or its name.');
    case 'build': {
      const [verb, ...more] = rest;
      if ((verb !== 'plan' && verb !== 'fill') || more.length > 0)
        return sayUsage(terminal, 'build takes: plan --sheet <file> | fill --sheet <file>, or --saved <id> in place of the file.');
      if ((sheet === undefined) === (saved === undefined))
        return sayUsage(terminal, 'Name one sheet: --sheet <file>, or --saved <id> for one the atlas holds.');
      const asked = { ...choice, format, sheet: sheet === undefined ? { saved: saved ?? '' } : { file: sheet } } as const;
      return verb === 'plan'
        ? buildPlanCommand({ ...asked, stock: read.stock ?? [] }, terminal)
        : completeCommand({ ...asked, asked: constraintsIn(read) }, terminal);
    }
    case 'key': {
      if (rest.length > 0) return sayUsage(terminal, `key takes no “${rest[0]}”: name families with --family, or a maker with --maker.`);
      const { level = 'models' } = read;
      if (level !== 'models' && level !== 'families') return sayUsage(terminal, `--level is models or families, not “${level}”.`);
      return keyCommand(
        {
          ...choice,
          format,
          level,
          families: read.family ?? [],
          makers: read.maker === undefined ? [] : [read.maker],
          letters: read['no-letters'] !== true,
          plate: read.plate === true,
          asFarAs: read['as-far-as'] ?? null,
        },
        terminal,
      );
    }
    case 'quiz':
      return rest.length === 0
        ? quizCommand(
            { ...choice, format, asked: { seed: read.seed, count: read.count, families: read.families, kinds: read.kinds } },
            terminal,
          )
        : sayUsage(terminal, `quiz takes no “${rest[0]}”: name families with --families.`);
    case 'compare':
      return rest[0] !== undefined && rest[1] !== undefined && rest.length === 2
        ? compareCommand({ ...choice, format, a: rest[0], b: rest[1] }, terminal)
        : sayUsage(terminal, 'compare takes the ids of two models.');
    case 'pack':
      return packCommand(rest, choice, format, terminal);
    case 'packs':
      return rest.length === 0 ? listPacks(choice, format, terminal) : sayUsage(terminal, 'packs takes no more words.');
    case 'sheets':
      return rest.length === 0
        ? listSheets(choice, format, terminal)
        : sayUsage(terminal, 'sheets takes no more words; sheet <id> prints one.');
    case 'sheet':
      return rest[0] !== undefined && rest.length === 1
        ? printSheet(rest[0], choice, terminal)
        : sayUsage(terminal, 'sheet takes the id of one sheet.');
    case 'cases': {
      if (rest.length > 0) return sayUsage(terminal, 'cases takes no more words; case <number> prints one.');
      if (read.csv && read.format === 'json') return sayUsage(terminal, 'cases is written as CSV or as JSON, not both.');
      const asked = { text: read.text, from: read.from, to: read.to, status: read.status, lookedBy: read['looked-by'] };
      return listCases(choice, asked, read.csv ? 'csv' : format, terminal);
    }
    case 'case':
      return rest[0] !== undefined && rest.length === 1
        ? printCase(rest[0], read.on, choice, format, terminal)
        : sayUsage(terminal, 'case takes the number of one case, as 2026-0007.');
    case 'mend':
      if (rest.length > 0 || choice.packs.length > 0)
        return sayUsage(terminal, 'mend works on a data folder: kinplate mend [--data <folder>].');
      return mend(data, setting.shipped, setting.now(), terminal);
    case 'schema':
      if (rest.length > 1 || (rest[0] !== undefined && rest[0] !== 'triage'))
        return sayUsage(terminal, 'schema takes no more words, or triage.');
      terminal.out(`${JSON.stringify(rest[0] === 'triage' ? triageJsonSchema() : verdictJsonSchema(), null, 2)}\n`);
      return exitCodes.stands;
    default:
      return sayUsage(terminal, `There is no command “${command}”.`);
  }
};

const triageFormats = ['text', 'json', 'csv'] as const;

const constraintsIn = (read: CommandLine): CompleteCommand['asked'] => ({
  maker: read.maker,
  atMost: read['at-most'],
  keep: read.keep,
  require: read.require ?? [],
  stock: read.stock ?? [],
  onlyStock: read['only-stock'] ?? false,
  mayLeave: read['may-leave'],
  limit: read.limit,
});

const packCommand = (
  words: readonly string[],
  choice: { packs: readonly string[]; data: string | undefined },
  format: 'text' | 'json',
  terminal: Terminal,
): Promise<ExitCode> | ExitCode => {
  const [verb, first, second, ...more] = words;
  if (choice.packs.length > 0) return sayUsage(terminal, `pack ${verb ?? ''} works on a data folder; it takes no --pack.`);
  if (verb === 'check' && first !== undefined && second === undefined) return checkPack(first, format, terminal);
  if (verb === 'load' && first !== undefined && second === undefined) return loadPackInto(first, choice, terminal);
  if (verb === 'export' && first !== undefined && second !== undefined && more.length === 0)
    return exportPackTo(first, second, choice, terminal);
  return sayUsage(terminal, 'pack takes: check <folder> | load <folder> | export <pack id> <folder>.');
};

interface CommandLine {
  readonly words: readonly string[];
  readonly help: boolean;
  readonly pack?: readonly string[];
  readonly data?: string;
  readonly sheet?: string;
  readonly saved?: string;
  readonly format?: string;
  readonly name?: string;
  readonly pdf?: string;
  readonly stock?: readonly string[];
  readonly maker?: string;
  readonly 'at-most'?: string;
  readonly keep?: string;
  readonly require?: readonly string[];
  readonly 'only-stock'?: boolean;
  readonly 'may-leave'?: string;
  readonly limit?: string;
  readonly csv?: boolean;
  readonly text?: string;
  readonly from?: string;
  readonly to?: string;
  readonly status?: string;
  readonly 'looked-by'?: string;
  readonly on?: string;
  readonly level?: string;
  readonly family?: readonly string[];
  readonly 'no-letters'?: boolean;
  readonly plate?: boolean;
  readonly 'as-far-as'?: string;
  readonly seed?: string;
  readonly count?: string;
  readonly families?: string;
  readonly kinds?: string;
}

const readCommandLine = (args: readonly string[]): CommandLine | string => {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        help: { type: 'boolean', short: 'h', default: false },
        pack: { type: 'string', multiple: true },
        data: { type: 'string' },
        sheet: { type: 'string' },
        saved: { type: 'string' },
        format: { type: 'string' },
        name: { type: 'string' },
        pdf: { type: 'string' },
        stock: { type: 'string', multiple: true },
        maker: { type: 'string' },
        'at-most': { type: 'string' },
        keep: { type: 'string' },
        require: { type: 'string', multiple: true },
        'only-stock': { type: 'boolean' },
        'may-leave': { type: 'string' },
        limit: { type: 'string' },
        csv: { type: 'boolean' },
        text: { type: 'string' },
        from: { type: 'string' },
        to: { type: 'string' },
        status: { type: 'string' },
        'looked-by': { type: 'string' },
        on: { type: 'string' },
        level: { type: 'string' },
        family: { type: 'string', multiple: true },
        'no-letters': { type: 'boolean' },
        plate: { type: 'boolean' },
        'as-far-as': { type: 'string' },
        seed: { type: 'string' },
        count: { type: 'string' },
        families: { type: 'string' },
        kinds: { type: 'string' },
      },
    });
    return { words: positionals, ...values };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
};
