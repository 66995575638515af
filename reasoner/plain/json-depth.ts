const [quote, backslash, openList, closeList, openObject, closeObject] = [0x22, 0x5c, 0x5b, 0x5d, 0x7b, 0x7d];

/**
 * Whether a text of JSON, or its bytes in UTF-8, opens more lists and objects within each other than so many. One look along the text, before anything is made of
 * it: what reads a value afterwards may call itself as deep as the value goes. Of what is no JSON it says whatever its brackets say.
 */
export const isDeeper = (json: string | Uint8Array, most: number): boolean => {
  const at = typeof json === 'string' ? (i: number) => json.charCodeAt(i) : (i: number) => json[i];
  let depth = 0;
  let quoted = false;
  for (let i = 0; i < json.length; i += 1) {
    const sign = at(i);
    if (sign === quote) quoted = !quoted;
    else if (quoted) {
      if (sign === backslash) i += 1;
    } else if (sign === openList || sign === openObject) {
      depth += 1;
      if (depth > most) return true;
    } else if (sign === closeList || sign === closeObject) depth -= 1;
  }
  return false;
};
