import { useState } from 'react';
import type { MakerId, NoFact, PartId } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { RefField } from '../edit/RefField.tsx';
import { ChangeDialog } from './ChangeDialog.tsx';
import type { OfCase } from './ofCase.ts';

const whyNot: Readonly<Record<NoFact, string>> = {
  told: 'only told',
  'of the unit': 'of this unit alone',
  disagree: 'two entries say two things',
};

/** A part the atlas does not have, as it was found in this case, becomes a part of it: its entries are what is known of it, and the case is their source. */
export function NewPartDialog(props: OfCase & { onMade(part: PartId): void }) {
  const { sheet, version, slot } = props;
  const words = useWords();
  const [name, setName] = useState('');
  const [maker, setMaker] = useState<MakerId | null>(null);
  const [numbers, setNumbers] = useState('');
  const named = {
    name: name.trim(),
    maker,
    numbers: [...new Set(numbers.split('\n').map((line) => line.trim()))].filter((line) => line !== ''),
  };
  const asked = useAsk('samples.newPart', named.name === '' ? null : { sheet: sheet.id, version, slot, named }, 150);
  const given = latest(asked);
  const current = asked.state === 'answered' && JSON.stringify(asked.args.named) === JSON.stringify(named) ? given : null;
  return (
    <ChangeDialog
      title={`A part of the atlas: ${words.slotName(slot)}`}
      edits={current?.edits ?? []}
      source={current?.source ?? ''}
      nothing="Say what the part is called, and what would be known of it stands here."
      why="Found at the counter."
      trouble={asked.state === 'trouble' ? asked.trouble : null}
      make="Make it a part of the atlas"
      onMade={() => given !== null && props.onMade(given.part.id)}
      onLeave={props.onLeave}
    >
      <div className="samples-fields">
        <label>
          What it is called{' '}
          <input
            className="field"
            maxLength={300}
            autoComplete="off"
            // biome-ignore lint/a11y/noAutofocus: the box was asked for, and begins with this.
            autoFocus
            value={name}
            onChange={({ target }) => setName(target.value)}
          />
        </label>
        <div>
          <span className="small soft">Maker</span>
          <RefField
            label="Maker"
            list="makers"
            value={maker}
            none="no maker’s name"
            onPick={(id) => setMaker(id as MakerId)}
            onClear={() => setMaker(null)}
          />
        </div>
        <label>
          Part numbers, a line each{' '}
          <textarea className="field" rows={2} spellCheck={false} value={numbers} onChange={({ target }) => setNumbers(target.value)} />
        </label>
      </div>
      <p className="small soft">A measure is taken as it was read, twice its uncertainty either way; it is of this one part.</p>
      {current !== null && current.without.length > 0 && (
        <p className="small">
          Left out: {current.without.map(({ feature, why }) => `${words.featureName(feature)} (${whyNot[why]})`).join(', ')}.
        </p>
      )}
    </ChangeDialog>
  );
}
