import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { jsonText, sayUsage } from './terminal.ts';
import { triageJsonSchema } from './triage-schema.ts';
import { verdictJsonSchema } from './verdict-schema.ts';

const otherwise = 'schema takes no more words, or triage.';

/** `kinplate schema`: the JSON Schema of what `--format json` prints. */
export const schemaCommand = command({
  name: 'schema',
  words: { shown: '[triage]', least: 0, most: 1, otherwise },
  options: {},
  help: ['the JSON Schema of --format json; schema triage, that of a triage'],
  run: ({ words: [of] }, terminal) => {
    if (of !== undefined && of !== 'triage') return sayUsage(terminal, otherwise);
    terminal.out(jsonText(of === 'triage' ? triageJsonSchema() : verdictJsonSchema()));
    return exitCodes.stands;
  },
});
