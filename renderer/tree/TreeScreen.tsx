import './tree.css';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { NoModelsYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import type { Picks } from '../route/picks.ts';
import { TreeBench } from './TreeBench.tsx';

/** All makers, families and generations on a time axis: drawn, in words, and how any two of them are related. */
export function TreeScreen({ picks }: { readonly picks: Picks }) {
  const words = useWords();
  const asked = useAsk('tree.atlas', {});
  const tree = latest(asked);
  return (
    <main className="tree-screen">
      <h1 className="unseen">Family tree</h1>
      {asked.state === 'trouble' && <TroubleNote lead="The tree could not be read." trouble={asked.trouble} />}
      {tree === null && asked.state === 'waiting' && <p className="soft tree-wait">Reading the atlas…</p>}
      {tree !== null && tree.families.length === 0 && (
        <div className="tree-wait">
          <NoModelsYet so="nor families, so there is no tree to draw" />
        </div>
      )}
      {tree !== null && tree.families.length > 0 && <TreeBench key={words.vocabulary.edition} tree={tree} picks={picks} />}
    </main>
  );
}
