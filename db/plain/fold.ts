/** A word as it is looked for: without case and accents, signs made spaces; a decimal sign between figures counts. `Ex-ducer Ø`, `exducer` are near; `M4.5×0.5` is not `M45×05`. */
export const fold = (text: string): string =>
  // Most words are folded already.
  /^[a-z\d]+(?: [a-z\d]+)*$/.test(text) ? text : folded(text);

const folded = (text: string): string =>
  text
    .replace(/[×✕]/g, 'x')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/(\d)[.,](?=\d)/g, '$1·')
    .replace(/[^\p{L}\p{N}·]+/gu, ' ')
    .trim();

/** The same, without its spaces: `inner dia`, `innerdia`. */
export const tight = (text: string): string => fold(text).replace(/ /g, '');
