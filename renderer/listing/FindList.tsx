import type { Becomes, Find } from '../../reasoner/index.ts';
import { sameMark } from '../../reasoner/plain/letters.ts';
import { useBench } from '../bench/BenchContext.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { Words } from '../bridge/words.ts';
import { landmark } from '../look/landmarks.ts';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { sayValue } from '../values/sayings.ts';
import type { Chosen } from './listingChoice.ts';

interface Props {
  readonly finds: readonly Find[];
  readonly chosen: readonly Chosen[];
  onTaken(index: number, taken: boolean): void;
  onMeaning(index: number, as: number): void;
}

/** Every find with what it becomes: a tick takes it, the box beside it gives it another meaning. */
export function FindList({ finds, chosen, onTaken, onMeaning }: Props) {
  const words = useWords();
  const [unit] = useLengthUnit();
  const { serial } = useBench().sheet;
  if (finds.length === 0)
    return <p role="status">Nothing in this text that the atlas has words for. Its words can still go into the story.</p>;
  return (
    <ol className="finds" {...landmark('find')} aria-label="What it claims">
      {finds.map((find, index) => {
        const { taken, as } = chosen[index] ?? { taken: false, as: null };
        return (
          <li key={find.from} className={taken ? 'is-taken' : undefined}>
            <span className="find-number">{index + 1}</span>
            <label className="tick">
              <input
                type="checkbox"
                checked={taken}
                disabled={as === null}
                aria-label={`take ${find.text}`}
                onChange={(event) => onTaken(index, event.target.checked)}
              />
              <span>{find.text}</span>
            </label>
            {find.becomes.length === 1 ? (
              <span className="find-meaning">{sayBecomes(words, find.becomes[0], unit, serial)}</span>
            ) : (
              <select
                className="field"
                aria-label={`what ${find.text} is`}
                value={as === null ? '' : String(as)}
                onChange={(event) => onMeaning(index, Number(event.target.value))}
              >
                {as === null && <option value="">of what? choose</option>}
                {find.becomes.map((becomes, at) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: the place among the meanings is what is chosen.
                  <option key={at} value={at}>
                    {sayBecomes(words, becomes, unit, serial)}
                  </option>
                ))}
              </select>
            )}
          </li>
        );
      })}
    </ol>
  );
}

/** `own` is the serial number the sheet has already. */
const sayBecomes = (words: Words, becomes: Becomes, unit: LengthUnit, own: string | undefined): string => {
  switch (becomes.kind) {
    case 'claim': {
      const whose = becomes.maker === null ? '' : `${words.makerName(becomes.maker)} `;
      const about = becomes.verdict === 'a model of the atlas' ? '' : ` (${becomes.verdict})`;
      return `offered as ${whose}${becomes.text}${about}`;
    }
    case 'maker':
      return `maker said: ${words.makerName(becomes.maker)}`;
    case 'told': {
      const feature = words.feature(becomes.feature);
      return `${words.slotName(becomes.slot)}: ${feature?.name ?? becomes.feature} ${sayValue(feature, becomes.value, unit)}`;
    }
    case 'not taken':
      return `not taken. ${becomes.sentence}`;
    case 'serial':
      return own === undefined || sameMark(own, becomes.number)
        ? `serial number ${becomes.number}`
        : `serial number ${becomes.number}; the sheet keeps ${own}, and this goes into the story`;
    case 'part number':
      return `number of ${becomes.parts.map(({ name }) => name).join(', ')}; goes into the story`;
  }
};
