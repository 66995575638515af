import { useState } from 'react';
import type { CaseFile, Saying } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { shopWordSentences } from '../../reasoner/plain/shop-word.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayInstant } from './sayCase.ts';
import { draftOf, type WordDraft, WordForm, wordOf } from './WordForm.tsx';
import { WordRead } from './WordRead.tsx';

interface Props {
  readonly file: CaseFile;
  /** Shown as it stood on a day: to be read and not written. */
  readonly past: boolean;
  onSaved(file: CaseFile): void;
}

/** What the shop or the maker decided beside the verdict: what holds, what was said before, and a form for the next word. */
export function WordBlock({ file, past, onSaved }: Props) {
  const last = file.words.at(-1) ?? null;
  const held = last?.word ?? null;
  const [draft, setDraft] = useState<WordDraft | null>(null);
  // The saying that was there when the form was opened: another one in its place is somebody else's.
  const [seen, setSeen] = useState<Saying['version'] | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);

  const open = () => {
    setSeen(last?.version ?? null);
    setTrouble(null);
    setDraft(draftOf(held));
  };
  const say = async (word: Saying['word'], madeAgainst: Saying['version'] | null) => {
    const reply = await desk.ask('cases.say', { sheet: file.sheet, word, who: whoLooks(), madeAgainst });
    if (reply.ok) {
      setTrouble(null);
      setDraft(null);
      return onSaved(reply.value);
    }
    setTrouble(reply.trouble);
    if (reply.trouble.code !== 'changed-since') return;
    // Both are shown: the other's above, what was typed here still in the form.
    const opened = await desk.ask('cases.open', { sheet: file.sheet, asOf: null });
    if (!opened.ok) return;
    onSaved(opened.value);
    setSeen(opened.value.words.at(-1)?.version ?? null);
  };

  return (
    <section className="case-block word-block" aria-labelledby="word-head">
      <h2 id="word-head" className="head">
        Decided beside the verdict
      </h2>
      {held !== null && <WordRead word={held} />}
      {held === null && (
        <p className="soft small">
          {last === null
            ? 'Nothing. What the shop or the maker decides of this unit can be written here; the verdict stays as it was judged.'
            : 'What was decided was taken back.'}
        </p>
      )}
      {trouble !== null && (
        <TroubleNote lead="Not written down." trouble={trouble}>
          {trouble.code === 'changed-since' && draft !== null && (
            <p>What stands above was written in the meantime. Yours is still below; saved, it is the later word, and both are kept.</p>
          )}
        </TroubleNote>
      )}
      {draft === null && !past && (
        <p className="word-actions no-print">
          <button type="button" className="button" onClick={open}>
            {held === null ? 'Write down what was decided…' : 'Decided otherwise since…'}
          </button>
          {held !== null && (
            <button type="button" className="button plain" onClick={() => void say(null, last?.version ?? null)}>
              Take it back
            </button>
          )}
        </p>
      )}
      {draft !== null && !past && (
        <WordForm draft={draft} onDraft={setDraft} onSave={() => void say(wordOf(draft), seen)} onLeave={() => setDraft(null)} />
      )}
      {file.words.length > (held === null ? 0 : 1) && (
        <details className="small word-said">
          <summary>All that was written down here</summary>
          <ol className="plain-list">
            {file.words
              .map((saying) => (
                <li key={saying.version}>
                  <span className="soft">
                    {sayInstant(saying.at)}
                    {saying.who === '' ? '' : `, ${saying.who}`}:
                  </span>{' '}
                  {saying.word === null ? 'taken back.' : shopWordSentences(saying.word).join(' ')}
                </li>
              ))
              .reverse()}
          </ol>
        </details>
      )}
    </section>
  );
}
