import type { EntrySeen } from '../../db/answers.ts';
import type { EntryForm } from '../../electron/bridge/edit-calls.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { Draft } from './drafts.ts';
import { type Json, type JsonObject, withField } from './json.ts';
import { cellName, sayCell } from './sayCell.ts';

type Word = EntrySeen['words'][number];

/** Where the shop says otherwise than a pack: both words, and the way back to the pack's. */
export function PackWords(props: {
  readonly seen: EntrySeen;
  readonly list: string;
  readonly form: EntryForm | null;
  readonly draft: Draft;
  onTake(draft: Draft): void;
}) {
  const { seen, list, form, draft, onTake } = props;
  const words = useWords();
  const facts = seen.words.filter(({ field, line, said }) => field === 'facts' && line !== null && said !== null);
  const texts = latest(
    useAsk(
      'edit.cells',
      facts.length === 0 ? null : { facts: Object.fromEntries(facts.map(({ line, said }) => [line, factOf(said).fact])) as never },
    ),
  ) as Readonly<Record<string, string>> | null;
  if (seen.words.length === 0) return null;
  const take = ({ field, line, said }: Word) => {
    if (field === null) return;
    if (line === null) {
      const mayLack = form === null ? field !== 'maker' : form.shape.required?.includes(field) !== true;
      onTake({ ...draft, entry: withField(draft.entry, field, (said as Json | null) ?? (mayLack ? undefined : null)) });
      return;
    }
    const sources = withField((draft.entry.factSources ?? {}) as JsonObject, line, said === null ? undefined : factOf(said).source);
    onTake({ ...draft, entry: { ...draft.entry, factSources: sources }, cells: { ...draft.cells, [line]: texts?.[line] ?? '' } });
  };
  return (
    <section className="edit-pack-words" aria-label="Where the shop says otherwise">
      <h2 className="head">The shop says otherwise than the pack</h2>
      <ul>
        {seen.words.map((word) => {
          const of = { list, field: word.field, line: word.line };
          const canTake = word.field !== null && (word.line === null || word.field === 'facts');
          return (
            <li key={`${word.pack} ${word.field} ${word.line}`}>
              {cellName(words, of)}: <ins>{sayCell(words, of, word.own)}</ins>{' '}
              <span className="soft">
                where “{words.vocabulary.packs.find(({ id }) => id === word.pack)?.title ?? word.pack}” says {sayCell(words, of, word.said)}
              </span>{' '}
              {canTake && (
                <button type="button" className="button plain" onClick={() => take(word)}>
                  Take the pack’s word again<span className="unseen"> for {cellName(words, of)}</span>
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

const factOf = (said: Word['said']) => {
  const { source, ...fact } = said as unknown as { readonly source?: string };
  return { fact, source };
};
