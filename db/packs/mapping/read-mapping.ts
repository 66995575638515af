import { z } from 'zod';
import { idText, mappedWordShape } from '../../atlas/schemas.ts';
import { Faults } from '../../read/faults.ts';
import { parseJson } from '../../read/parse-json.ts';
import { done, failed, type Outcome, type Trouble } from '../../trouble.ts';
import { placeIn } from '../lookups.ts';
import type { SaidWord, WordProposed } from '../mapped-word.ts';

const format = { format: 'kinplate mapping', version: 1 } as const;

const option = z.union([idText, z.null()]);
const word = z
  .strictObject({
    ...mappedWordShape,
    to: option.exactOptional(),
    as: option.exactOptional(),
    // Told to whoever corrects it, and read again by nobody.
    name: z.unknown(),
    pack: z.unknown(),
    why: z.unknown(),
    said: z.unknown(),
    warnings: z.unknown(),
    otherwise: z.unknown(),
    likely: z.unknown(),
    clashes: z.unknown(),
  })
  .refine(({ to = null, as = null }) => to === null || as === null, { error: 'no more than one of `to` and `as`' });

const mappingSchema = z.strictObject({
  format: z.literal(format.format),
  version: z.literal(format.version),
  pack: z.unknown(),
  words: z.array(word),
});

/** What is proposed of a pack's words, as a text that is corrected by hand and read again. */
export const mappingText = (pack: string, words: readonly WordProposed[]): string =>
  `${JSON.stringify(
    {
      ...format,
      pack,
      words: words.map(({ list, id, name, pack: of, to, as, options, can: _can, ...told }) => ({
        list,
        id,
        name,
        pack: of,
        to,
        ...(as === null ? {} : { as }),
        ...(options === null ? {} : { options: Object.fromEntries(options.map((one) => [one.id, one.to])) }),
        ...told,
      })),
    },
    null,
    2,
  )}\n`;

/**
 * What a mapping says of a pack's words, each with its place in the text. Trouble: `pack-invalid` with every fault by line in `all`.
 * @param file as troubles name it
 */
export const readMapping = (text: string, file: string): Outcome<readonly SaidWord[]> => {
  const parsed = parseJson(text, mappingSchema);
  const faults = new Faults(200);
  if (!parsed.ok) {
    for (const { found, expected, ...place } of parsed.faults)
      faults.add({ file, ...place }, found, parsed.isJson ? expected : `JSON, with ${expected} here`);
    return failed(troubleOf(faults));
  }
  const { value, places } = parsed;
  const met = new Set<string>();
  const words = value.words.map(({ list, id, to = null, as = null, options = {} }, index): SaidWord => {
    const at = placeIn(file, ['words', index], places);
    const key = `${list} ${id}`;
    if (met.has(key))
      faults.add(placeIn(file, ['words', index, 'id'], places), `${JSON.stringify(id)} of ${list} a second time`, 'every entry once');
    met.add(key);
    if (as !== null) return { list, id, as, at };
    if (to === null) return { list, id, at };
    const otherwise = Object.fromEntries(Object.entries(options).filter(([option, is]) => option !== is));
    return { list, id, to, ...(Object.keys(otherwise).length === 0 ? {} : { options: otherwise }), at };
  });
  return faults.count > 0 ? failed(troubleOf(faults)) : done(words);
};

/** What is wrong with what is said of words, where it is written. */
export const troubleOf = (faults: Faults): Trouble => ({ ...faults.asTrouble('', 'The mapping'), place: faults.found[0]?.place ?? null });
