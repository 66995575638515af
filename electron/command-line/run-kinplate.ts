import { parseArgs } from 'node:util';
import { list } from '../../reasoner/plain/text.ts';
import { optionFault } from '../bridge/option-fault.ts';
import type { Asked, Command, Setting } from './command.ts';
import { commands } from './commands.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { help } from './help.ts';
import type { OptionSpec, OptionSpecs } from './option.ts';
import { sayUsage, type Terminal } from './terminal.ts';

/** Reads the command line and does what it says; resolves to the exit code. A bug throws. */
export const runKinplate = async (args: readonly string[], terminal: Terminal, setting: Setting): Promise<ExitCode> => {
  const typed = readCommandLine(args);
  if (typeof typed === 'string') return sayUsage(terminal, typed);
  if (typed.help || typed.words.length === 0) {
    terminal.out(help(commands));
    return typed.help ? exitCodes.stands : exitCodes.usage;
  }
  const command = commandNamed(typed.words);
  if (typeof command === 'string') return sayUsage(terminal, command);
  const asked = { words: typed.words.slice(command.name.split(' ').length), options: optionsRead(command, typed.values) };
  const fault = faultOfWords(command, asked.words) ?? faultOfOptions(command, typed.values);
  return fault === null ? command.run(asked, terminal, setting) : sayUsage(terminal, fault);
};

type Values = Readonly<Record<string, string | boolean | readonly string[]>>;

interface Typed {
  readonly words: readonly string[];
  readonly help: boolean;
  readonly values: Values;
}

/** Read with the options of all commands: which words name the command is known only once what belongs to options is set apart. */
const readCommandLine = (args: readonly string[]): Typed | string => {
  const specs = Object.assign({}, ...commands.map(({ options }) => options)) as Readonly<Record<string, OptionSpec>>;
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        ...Object.fromEntries(
          Object.entries(specs).map(([name, { kind }]) => [
            name,
            { type: kind === 'flag' ? 'boolean' : 'string', multiple: kind === 'list' } as const,
          ]),
        ),
        help: { type: 'boolean', short: 'h' },
      },
    });
    const { help: asked, ...rest } = values;
    return { words: positionals, help: asked === true, values: rest as Values };
  } catch (error) {
    return optionFault(error);
  }
};

/** The command of one word or two, or what there is in its place. */
const commandNamed = (words: readonly string[]): Command | string => {
  const [first = '', second] = words;
  // Two words before one: `case write` is a command of its own beside `case`.
  const found = commands.find(({ name }) => name === `${first} ${second}`) ?? commands.find(({ name }) => name === first);
  if (found !== undefined) return found;
  const under = commands.filter(({ name }) => name.startsWith(`${first} `));
  return under.length === 0
    ? `There is no command “${first}”.`
    : `${second === undefined ? `${first} is no command by itself` : `There is no command “${first} ${second}”`}; there ${under.length === 1 ? 'is' : 'are'} ${list(under.map(({ name }) => name))}.`;
};

const faultOfWords = ({ name, words, inPlaceOfWords }: Command, given: readonly string[]): string | null => {
  if (words !== undefined) return given.length < words.least || given.length > words.most ? words.otherwise : null;
  if (given.length === 0) return null;
  return `${name} takes no “${given[0]}”${inPlaceOfWords === undefined ? '' : `: ${inPlaceOfWords}`}.`;
};

const faultOfOptions = ({ name, options }: Command, values: Values): string | null => {
  for (const [option, value] of Object.entries(values)) {
    const spec = options[option];
    if (spec === undefined) return `${name} takes no --${option}${takenBy(options)}`;
    if (spec.kind === 'among' && !spec.words.includes(value as string)) return `--${option} is ${list(spec.words, 'or')}, not “${value}”.`;
  }
  return values.pack !== undefined && values.data !== undefined ? 'Name packs with --pack, or a data folder with --data, not both.' : null;
};

const takenBy = (options: Command['options']): string => {
  const names = Object.keys(options).map((name) => `--${name}`);
  if (names.length === 0) return ', nor any other option.';
  return `; it takes ${list(names)}.`;
};

const optionsRead = ({ options }: Command, values: Values): Asked<OptionSpecs>['options'] =>
  Object.fromEntries(Object.entries(options).map(([name, spec]) => [name, values[name] ?? whereNotGiven(spec)]));

const whereNotGiven = (spec: OptionSpec) => {
  switch (spec.kind) {
    case 'flag':
      return false;
    case 'list':
      return [];
    case 'among':
      return spec.words[0];
    case 'text':
      return undefined;
  }
};
