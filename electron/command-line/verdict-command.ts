import type { Outcome } from '../../db/index.ts';
import {
  type Answer,
  answer,
  type CompiledAtlas,
  explain,
  type NameAnswer,
  type Sheet,
  type Status,
  type Verdict,
} from '../../reasoner/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption, sheetOptions, type ValuesOf } from './option.ts';
import { jsonText, sayTrouble, type Terminal } from './terminal.ts';
import { nameText, verdictText } from './verdict-text.ts';
import { withSheet } from './with-atlas.ts';

const options = { ...sheetOptions, ...formatOption, name: { kind: 'text', value: '<name>' }, ...atlasOptions } as const;

/** `kinplate verdict`. The exit code says what became of the claim, or of the name that was asked about. */
export const verdictCommand = command({
  name: 'verdict',
  options,
  inPlaceOfWords: 'name the sheet with --sheet',
  help: [
    'The verdict on one sheet. --sheet - reads it from standard input; --saved <id> takes one the atlas holds.',
    '--name explains one name instead: its id, or its text.',
  ],
  run: ({ options: asked }, terminal) => withSheet(asked, terminal, (atlas, sheet) => judge(asked, atlas, sheet, terminal)),
});

const judge = ({ format, name }: ValuesOf<typeof options>, atlas: CompiledAtlas, sheet: Sheet, terminal: Terminal): ExitCode => {
  const found = answer(atlas, sheet);
  if (found.kind === 'contradiction' || name === undefined) {
    terminal.out(format === 'json' ? jsonText(found) : verdictText(found, sheet, atlas.data));
    return exitOf(found);
  }
  const named = nameAsked(found, name);
  if (!named.ok) return sayTrouble(terminal, named.trouble);
  const explained = explain(atlas, sheet, named.value.name.id);
  terminal.out(format === 'json' ? jsonText(explained) : nameText(explained, atlas.data));
  return exitOfStatus(explained.status);
};

/** The judged name of this id, or of this text whatever its case; a text several names share means the best of them. */
const nameAsked = (verdict: Verdict, asked: string): Outcome<NameAnswer> => {
  const plain = asked.trim().toLowerCase();
  const found = verdict.names.find(({ name }) => name.id === asked) ?? verdict.names.find(({ name }) => name.text.toLowerCase() === plain);
  if (found !== undefined) return well(found);
  const near = verdict.names.filter(({ name }) => name.text.toLowerCase().includes(plain)).slice(0, 5);
  const hint = near.length > 0 ? ` Near it: ${near.map(({ name }) => `“${name.text}” (${name.id})`).join(', ')}.` : '';
  return refusal(
    'no-such-name',
    '--name',
    `No name judged for this sheet is “${asked}”.${hint} The JSON verdict lists them all under names.`,
  );
};

const exitOf = (found: Answer): ExitCode => {
  if (found.kind === 'contradiction') return exitCodes.contradiction;
  return found.claim === null ? exitCodes.stands : exitOfStatus(found.claim.status);
};

const exitOfStatus = (status: Status): ExitCode => {
  switch (status) {
    case 'stands':
      return exitCodes.stands;
    case 'open':
      return exitCodes.open;
    case 'ruled out':
      return exitCodes.ruledOut;
  }
};
