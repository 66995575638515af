import { useState } from 'react';
import type { SubjectRef } from '../../reasoner/index.ts';
import { latest, unanswered, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox, type ComboItem } from '../look/Combobox.tsx';
import { goTo } from '../route/route.ts';

const most = 5;

/** What is to be told apart, kept in the address: add by typing, take away by button. */
export function SubjectPicker({ subjects }: { readonly subjects: readonly SubjectRef[] }) {
  const words = useWords();
  const [text, setText] = useState('');
  const search = text.trim() === '' ? null : { text: text.trim(), limit: 40 };
  const searched = useAsk('atlas.search', search, 60);
  const hits = latest(searched) ?? [];
  const named = latest(useAsk('apart.parts', { parts: subjects.flatMap((one) => (one.kind === 'part' ? [one.id] : [])) }));
  const chosen = new Set(subjects.map(({ kind, id }) => `${kind} ${id}`));
  // A part is told from parts of its own slot alone, and a family or model from those.
  const slot = subjects[0]?.kind === 'part' ? named?.find(({ id }) => id === subjects[0]?.id)?.slot : null;
  const item = (ref: SubjectRef, name: string, detail: string): ComboItem<SubjectRef>[] =>
    chosen.has(`${ref.kind} ${ref.id}`) ? [] : [{ key: `${ref.kind} ${ref.id}`, text: name, detail, value: ref }];
  const { families, models } = words.vocabulary;
  const wide =
    subjects[0]?.kind === 'part'
      ? []
      : [
          ...families
            .filter(({ name }) => matches(name, text))
            .flatMap(({ id, name, maker }) => item({ kind: 'family', id }, name, `family, ${words.makerName(maker)}`)),
          ...models
            .filter(({ name }) => matches(name, text))
            .flatMap(({ id, name, family }) => item({ kind: 'model', id }, name, `model, ${words.familyName(family)}`)),
        ];
  const narrow =
    subjects.length > 0 && subjects[0]?.kind !== 'part'
      ? []
      : hits.flatMap(({ node, detail }) =>
          node.kind === 'part' && (slot === null || slot === undefined || detail.includes(words.slotName(slot)))
            ? item({ kind: 'part', id: node.id }, node.name, `part, ${detail}`)
            : [],
        );
  const nameOf = (ref: SubjectRef): string => {
    switch (ref.kind) {
      case 'family':
        return words.familyName(ref.id);
      case 'model':
        return words.modelName(ref.id);
      case 'part':
        return named?.find(({ id }) => id === ref.id)?.name ?? ref.id;
    }
  };
  return (
    <div className="subject-picker">
      <ul aria-label="To be told apart">
        {subjects.map((ref) => (
          <li key={`${ref.kind} ${ref.id}`}>
            <span>{nameOf(ref)}</span>
            <button
              type="button"
              className="button bare no-print"
              aria-label={`Leave out ${nameOf(ref)}`}
              onClick={() => goTo({ screen: 'apart', subjects: subjects.filter((one) => one !== ref) })}
            >
              ×
            </button>
          </li>
        ))}
      </ul>
      {subjects.length < most ? (
        <Combobox
          className="no-print"
          label="Add a family, model or part"
          placeholder={subjects.length === 0 ? 'family, model or part' : 'and from'}
          items={[...wide, ...narrow]}
          filtered
          searching={unanswered(searched, search)}
          none={text.trim() === '' ? 'Type some of its name or number.' : 'Nothing by that name can be told apart from these.'}
          onType={setText}
          onPick={(ref) => {
            setText('');
            goTo({ screen: 'apart', subjects: [...subjects, ref] });
          }}
        />
      ) : (
        <p className="soft small no-print">Five are as many as are told apart at once.</p>
      )}
    </div>
  );
}

/** Whether every word that was typed begins some word of the name, whatever the case; nothing typed matches all. */
const matches = (name: string, typed: string): boolean => {
  const words = split(name);
  return split(typed).every((start) => words.some((word) => word.startsWith(start)));
};

const split = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[\s-]+/)
    .filter((word) => word !== '');
