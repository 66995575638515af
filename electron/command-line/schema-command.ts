import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { listingsJsonSchema } from './listings-schema.ts';
import { jsonText, sayUsage } from './terminal.ts';
import { verdictJsonSchema } from './verdict-schema.ts';

const otherwise = 'schema takes no more words, or listings.';

/** `kinplate schema`: the JSON Schema of what `--format json` prints. */
export const schemaCommand = command({
  name: 'schema',
  words: { shown: '[listings]', least: 0, most: 1, otherwise },
  options: {},
  help: ['the JSON Schema of --format json; schema listings, that of many'],
  run: ({ words: [of] }, terminal) => {
    if (of !== undefined && of !== 'listings') return sayUsage(terminal, otherwise);
    terminal.out(jsonText(of === 'listings' ? listingsJsonSchema() : verdictJsonSchema()));
    return exitCodes.stands;
  },
});
