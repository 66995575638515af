import type { Command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { optionInHelp } from './option.ts';

/** The whole help, made from the commands themselves. */
export const help = (commands: readonly Command[]): string => `kinplate: what a turbocharger may honestly be called, from a script.

${commands.flatMap(entryOf).join('\n')}

  --pack reads packs into memory for this once and leaves everything else alone. Without it the atlas of the
  data folder is used: --data, else $KINPLATE_DATA, else the user's own data folder.
  Of either, one may be given with: ${wrapped(takingPacks(commands), 100).join('\n  ')}.

Exit codes
  ${exitCodes.stands}   the claimed name stands, or no name was claimed; or the command was done
  ${exitCodes.ruledOut}   the claimed (or asked) name is ruled out
  ${exitCodes.open}   the claimed (or asked) name is open
  ${exitCodes.contradiction}   observations contradict each other; nothing was judged
  ${exitCodes.afterWork}   a fit or a build goes together after work; 0, 1 and 2 are: drops in, will not fit, not known
  ${exitCodes.usage}  the command line is wrong                  ${exitCodes.badInput}  a pack or sheet has faults
  ${exitCodes.noInput}  a file, folder or sheet is not there       ${exitCodes.bug}  a bug of kinplate
  ${exitCodes.badAtlas}  the atlas file cannot be used              ${exitCodes.cannotWrite}  something could not be written
  ${exitCodes.tryLater}  the atlas file is in use; try again later   ${exitCodes.stopped} listings were stopped; what it had is printed
`;

/** How a command is typed: its name, its words, and the options help shows. */
export const usageOf = (command: Command): string => piecesOf(command).join(' ');

const piecesOf = ({ name, words, options }: Command): readonly string[] => [
  name,
  ...(words === undefined ? [] : [words.shown]),
  ...Object.entries(options).flatMap(([option, spec]) => optionInHelp(option, spec) ?? []),
];

/** What a command does begins here, where how it is typed leaves room for it on one line. */
const column = 65;

const entryOf = (command: Command): readonly string[] => {
  const usage = `  kinplate ${usageOf(command)}`;
  const [only, ...more] = command.help;
  if (usage.length < column - 1 && more.length === 0) return [`${usage.padEnd(column)}${only}`];
  return [
    ...wrapped(piecesOf(command), 105).map((line, at) => (at === 0 ? `  kinplate ${line}` : `           ${line}`)),
    ...command.help.map((line) => `      ${line}`),
  ];
};

const takingPacks = (commands: readonly Command[]): readonly string[] => {
  const names = commands.filter(({ options }) => options.pack !== undefined && options.data !== undefined).map(({ name }) => name);
  return names.map((name, at) => (at < names.length - 1 ? `${name},` : name));
};

/** Pieces put into lines of at most so many letters; none is broken. */
const wrapped = (pieces: readonly string[], width: number): readonly string[] => {
  const lines: string[] = [];
  for (const piece of pieces) {
    const last = lines.at(-1);
    if (last === undefined || last.length + piece.length + 1 > width) lines.push(piece);
    else lines[lines.length - 1] = `${last} ${piece}`;
  }
  return lines;
};
