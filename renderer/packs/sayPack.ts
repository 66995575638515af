import type { PackCounts, Signer } from '../../db/answers.ts';
import { sayMany } from '../values/sayMany.ts';

/** What a pack has of its own, the weightiest first: `634 parts, 84 models`. */
export const sayCounts = ({ parts, models, families, makers, samples, words, ownWords }: PackCounts): string =>
  [
    [parts, 'part', 'parts'],
    [models, 'model', 'models'],
    [families, 'family', 'families'],
    [makers, 'maker', 'makers'],
    [words, 'definition', 'definitions'],
    [samples, 'sample sheet', 'sample sheets'],
    [ownWords, 'thing the shop says otherwise', 'things the shop says otherwise'],
  ]
    .filter(([many]) => many !== 0)
    .map(([many, one, more]) => sayMany(many as number, one as string, more as string))
    .join(', ');

const things: Readonly<Record<string, string>> = { allowed: 'part allowed in a model' };

/** One thing of a pack by the name of its sort. */
export const sayThing = (one: string, many: number): string => {
  const word = things[one] ?? one;
  if (many === 1) return word;
  if (word.endsWith('y')) return `${word.slice(0, -1)}ies`;
  return one === 'allowed' ? 'parts allowed in models' : `${word}s`;
};

/** Who signed a pack, and what the shop says of the key. */
export const saySigner = (signer: Signer | null, letPass: boolean): string => {
  if (signer === null) return 'Nobody signed it.';
  const whose = `${signer.name}, key ${signer.fingerprint}`;
  switch (signer.standing) {
    case 'trusted':
      return `It is signed by ${whose}, whom the shop trusts.`;
    case 'stranger':
      return `It is signed by ${whose}: a key the shop does not know${letPass ? ', let pass this once' : ''}.`;
    case 'withdrawn':
      return `It is signed by ${whose}: a key the shop has withdrawn.`;
  }
};
