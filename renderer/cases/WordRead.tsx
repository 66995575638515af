import type { ShopWord } from '../../db/answers.ts';
import { shopWordApart, shopWordHeading, shopWordSentences } from '../../reasoner/plain/shop-word.ts';

/** What was decided, in a frame of its own so that nobody takes it for the verdict. */
export function WordRead({ word }: { readonly word: ShopWord }) {
  const [said, ground] = shopWordSentences(word);
  return (
    <div className="shop-word">
      <p className="shop-word-head">{shopWordHeading(word)}</p>
      <p>{said}</p>
      <p>{ground}</p>
      <p className="small soft">{shopWordApart}</p>
    </div>
  );
}
