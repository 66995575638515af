import { asId, compareModels, type ModelId } from '../../reasoner/index.ts';
import { refusal } from '../bridge/reply.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

/** `kinplate compare`: two models side by side, differences first, tab-separated. */
export const compareCommand = command({
  name: 'compare',
  words: { shown: '<model> <model>', least: 2, most: 2, otherwise: 'compare takes the ids of two models.' },
  options: { ...formatOption, ...atlasOptions },
  help: ['two models side by side, differences first'],
  run: ({ words: [a = '', b = ''], options }, terminal) =>
    withAtlas(options, terminal, (atlas) => {
      const missing = [a, b].find((id) => !atlas.models.has(asId<ModelId>(id)));
      if (missing !== undefined) return sayTrouble(terminal, refusal('not-found', missing, `The atlas has no model “${missing}”.`).trouble);
      const compared = compareModels(atlas, asId<ModelId>(a), asId<ModelId>(b));
      const rows = compared.rows.map(({ same, what, a: one, b: other }) => [same ? '=' : '≠', what, one ?? '', other ?? ''].join('\t'));
      terminal.out(
        options.format === 'json' ? jsonText(compared) : `${[['', '', compared.a, compared.b].join('\t'), ...rows].join('\n')}\n`,
      );
      return exitCodes.stands;
    }),
});
