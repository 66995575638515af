import type { Feature } from '../../reasoner/index.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import type { Draft } from './draft.ts';
import { Picks } from './Picks.tsx';

interface Props {
  readonly feature: Feature;
  readonly draft: Draft;
  readonly unit: LengthUnit;
  /** Names the fields of this editor, and its label’s element is `${id}-name`. */
  readonly id: string;
  readonly wrong: boolean;
  /** The element that says what is wrong. */
  readonly problem: string | undefined;
  onChange(part: Partial<Draft>): void;
  /** Null where there is nothing to count by tapping. */
  onCount: (() => void) | null;
}

/** Where the value of a feature is given: by its kind a figure, one of several, there or not, or letters. */
export function ValueField(props: Props) {
  const { feature, draft, id, onChange } = props;
  switch (feature.kind) {
    case 'count':
    case 'measure':
      return <FigureField {...props} />;
    case 'choice':
      return (
        <Picks
          name={`${id}-choice`}
          labelledBy={`${id}-name`}
          options={(feature.options ?? []).map((option) => ({ value: option.id, text: option.name }))}
          picked={draft.option}
          onPick={(option) => onChange({ option })}
        />
      );
    case 'presence':
      return (
        <Picks
          name={`${id}-presence`}
          labelledBy={`${id}-name`}
          options={[
            { value: 'yes', text: 'there' },
            { value: 'no', text: 'not there' },
          ]}
          picked={draft.present}
          onPick={(present) => onChange({ present })}
        />
      );
    case 'mark':
      return <LettersField {...props} />;
  }
}

function FigureField({ feature, draft, unit, id, wrong, problem, onChange, onCount }: Props) {
  const count = feature.kind === 'count';
  const shown = count ? (feature.unit === 'year' ? '' : feature.unit) : feature.unit === 'deg' ? '°' : unit;
  return (
    <>
      <input
        className="field number"
        inputMode={count ? 'numeric' : 'decimal'}
        autoComplete="off"
        aria-labelledby={`${id}-name`}
        aria-invalid={wrong}
        aria-describedby={problem}
        placeholder={count ? '10, or 10 or 11' : undefined}
        value={draft.text}
        onChange={(event) => onChange({ text: event.target.value })}
      />
      <span className="soft">{shown}</span>
      {onCount !== null && (
        <button type="button" className="button" onClick={onCount}>
          Count by tapping
        </button>
      )}
    </>
  );
}

function LettersField({ draft, id, wrong, problem, onChange }: Props) {
  return (
    <>
      <input
        className="field"
        autoComplete="off"
        spellCheck={false}
        aria-labelledby={`${id}-name`}
        aria-invalid={wrong}
        aria-describedby={problem}
        placeholder="the letters, as they stand"
        disabled={draft.blank}
        value={draft.blank ? '' : draft.text}
        onChange={(event) => onChange({ text: event.target.value })}
      />
      <label className="tick">
        <input type="checkbox" checked={draft.blank} onChange={(event) => onChange({ blank: event.target.checked })} /> no letters
      </label>
    </>
  );
}
