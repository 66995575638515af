import type { Maker } from '../atlas/atlas.ts';
import { readBy, withoutTradeName, writtenBy } from './read-name.ts';

/**
 * What is wrong with the name of a listed model as its maker's own grammar reads it (A4); null where the grammar reads it and would write it just so,
 * or the maker has none. A grammar that cannot read a name its maker gives would tell its owner that it is no name.
 */
export const faultOfListedName = (maker: Maker, name: string): { readonly found: string; readonly expected: string } | null => {
  if (maker.grammar === null) return null;
  const read = readBy(maker, maker.grammar, withoutTradeName(maker, name).rest);
  const found = `the name ${JSON.stringify(name)}`;
  const [fault = 'none of its tokens stands at the beginning'] = read.faults;
  if (!read.whole || read.faults.length > 0) return { found, expected: `a name the grammar of ${maker.name} can read: ${fault}` };
  const written = writtenBy(read.tokens);
  return written === name ? null : { found, expected: `${JSON.stringify(written)}, which is how the grammar of ${maker.name} writes it` };
};
