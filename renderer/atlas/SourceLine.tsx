import type { SourceId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Papers } from './Papers.tsx';

/** Where what a page says comes from, with the papers the shop keeps of that source. */
export function SourceLine({ source }: { readonly source: SourceId }) {
  const words = useWords();
  return (
    <>
      <p className="small soft">Source: {words.sourceTitle(source)}</p>
      <Papers about={{ kind: 'source', id: source }} heading="Papers of this source" />
    </>
  );
}
