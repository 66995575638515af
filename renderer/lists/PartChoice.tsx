import { useState } from 'react';
import type { PartId } from '../../reasoner/index.ts';
import { latest, unanswered, useAsk } from '../bridge/useAsk.ts';
import { Combobox } from '../look/Combobox.tsx';

export interface ChosenPart {
  readonly id: PartId;
  readonly name: string;
}

interface Props {
  readonly part: ChosenPart | null;
  /** What is said where nothing is called what was typed. */
  readonly none: string;
  /** Null: another is to be chosen. */
  onChoose(part: ChosenPart | null): void;
}

/** A part of the atlas, found by name or number. */
export function PartChoice({ part, none, onChoose }: Props) {
  const [typed, setTyped] = useState('');
  const search = typed.trim() === '' ? null : { text: typed, limit: 40 };
  const searched = useAsk('atlas.search', search, 60);
  const hits = latest(searched) ?? [];
  if (part !== null)
    return (
      <span>
        {part.name}{' '}
        <button type="button" className="button plain" onClick={() => onChoose(null)}>
          Another part
        </button>
      </span>
    );
  return (
    <Combobox
      label="Part of the atlas"
      placeholder="name or part number"
      filtered
      searching={unanswered(searched, search)}
      items={hits.flatMap(({ node, detail, matched }) =>
        node.kind === 'part'
          ? [
              {
                key: node.id,
                text: node.name,
                detail: matched === node.name ? detail : `${matched} · ${detail}`,
                value: { id: node.id, name: node.name },
              },
            ]
          : [],
      )}
      none={typed === '' ? 'Type a name or a number.' : none}
      onType={setTyped}
      onPick={onChoose}
    />
  );
}
