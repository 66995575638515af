import type { Observation } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { saySure, sayValue } from '../values/sayings.ts';
import { RowSlip } from './RowSlip.tsx';
import { isUsual } from './slips.ts';

interface Props {
  readonly observation: Observation;
  readonly disputed: boolean;
  readonly unit: LengthUnit;
  onChange(): void;
  onRemove(): void;
}

/** One entry: press it to change it, Delete takes it off the sheet (undo brings it back). */
export function ObservationRow({ observation, disputed, unit, onChange, onRemove }: Props) {
  const words = useWords();
  const feature = words.feature(observation.feature);
  const name = feature?.name ?? observation.feature;
  const value = sayValue(feature, observation.value, unit);
  const sure = saySure(feature, observation.sure, unit);
  // The usual instrument goes without saying.
  const instrument = observation.instrument === feature?.instrument ? undefined : observation.instrument;
  const beside = [
    observation.confirmed === true ? 'confirmed' : undefined,
    instrument === undefined ? undefined : `with ${instrument}`,
    observation.note,
  ]
    .filter((part) => part !== undefined)
    .join('; ');
  const shown = [name, value, sure, beside === '' ? undefined : beside].filter((part) => part !== undefined).join(' ');
  return (
    <li className={disputed ? 'entry is-disputed' : 'entry'}>
      <button
        type="button"
        data-entry={observation.id}
        className={`entry-text is-${observation.sure.kind}`}
        aria-label={`${shown}${disputed ? '; disagrees with another entry' : ''}; change`}
        title={beside === '' ? undefined : beside}
        onClick={onChange}
        onKeyDown={(event) => {
          if (event.key !== 'Delete' && event.key !== 'Backspace') return;
          event.preventDefault();
          onRemove();
        }}
      >
        <span className="entry-feature">{name}</span> <span className="entry-value">{value}</span>{' '}
        <span className="entry-sure">{sure}</span>
        {beside !== '' && <span className="entry-note"> {beside}</span>}
      </button>
      <button type="button" className="button bare no-print" aria-label={`Remove ${name} ${value}`} onClick={onRemove}>
        ×
      </button>
      {feature !== undefined && observation.confirmed !== true && !isUsual(feature, observation) && (
        <RowSlip feature={feature} observation={observation} unit={unit} onReadAgain={onChange} />
      )}
    </li>
  );
}
