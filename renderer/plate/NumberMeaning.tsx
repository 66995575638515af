import './number-meaning.css';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { FeatureId, NumberSoFar, PartSoFar, PieceSoFar, ReadSoFar, SlotId } from '../../reasoner/index.ts';
import { latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayMeaning, sayWhen } from './sayMeaning.ts';
import { useAtRest } from './useAtRest.ts';

interface Props {
  readonly text: string;
  readonly says: 'part number' | 'serial number';
  /** Of an entry of the plate: its feature and what else is on the sheet; null for a number asked about by itself. */
  readonly entry: CallArgs<'number.soFar'>['entry'];
  /** Whether the parts with the number, or that there is none, are told elsewhere. */
  readonly partsElsewhere?: boolean;
}

/**
 * What a number means as far as it is typed, at every key (O5): piece by piece, with what is still to come or what cannot stand there; then the part it is of. The older
 * answer stays until the newer is here. It is read aloud when typing rests.
 */
export function NumberMeaning({ text, says, entry, partsElsewhere = false }: Props) {
  const words = useWords();
  const typed = text.trim();
  const asked = useAsk('number.soFar', typed === '' ? null : { text: typed, says, entry });
  const given = typed === '' ? null : latestGiven(asked);
  const answered = asked.state === 'answered' && asked.args.text === typed ? asked.value : null;
  const aloud = useAtRest(answered === null ? null : sayMeaning(answered, says, words));
  return (
    <div className="number-meaning">
      <p className="unseen" role="status">
        {aloud}
      </p>
      {given !== null && (
        <Meaning
          {...given.value}
          says={says}
          own={entry === null ? null : (words.feature(entry.feature as FeatureId)?.slot ?? null)}
          partsElsewhere={partsElsewhere}
        />
      )}
    </div>
  );
}

interface MeaningProps extends NumberSoFar, Pick<Props, 'says' | 'partsElsewhere'> {
  readonly own: SlotId | null;
}

function Meaning({ state, readings, silent, parts, mayBeOf, says, own, partsElsewhere }: MeaningProps) {
  const words = useWords();
  return (
    <>
      {readings.map((reading) => (
        <Reading key={`${reading.maker} ${reading.pattern} ${reading.slot}`} {...reading} own={own} />
      ))}
      {state === 'none' && parts.length === 0 && (
        <p className="number-none">
          No maker of the atlas begins a {says} so.
          {silent.length > 0 && ` How ${silent.map((maker) => words.makerName(maker)).join(' and ')} makes them is not known.`}
        </p>
      )}
      {!partsElsewhere && parts.map((part) => <OfPart key={part.part} {...part} />)}
      {!partsElsewhere && state === 'whole' && says === 'part number' && parts.length === 0 && (
        <p className="number-not-listed">
          <b>Not listed</b>: no part of the atlas has this number.
          {mayBeOf.length > 0 && ` It may be of ${someOf(mayBeOf.map(({ name }) => name))}.`}
        </p>
      )}
    </>
  );
}

/** So many are named. */
const most = 4;
const someOf = (names: readonly string[]): string =>
  names.length > most ? `${names.slice(0, most).join(', ')} or ${names.length - most} more` : names.join(' or ');

/** `own`: the slot whose number is entered; null where any may be asked about. */
function Reading({ maker, pattern, ofAnother, pieces, slot, made, month, own }: ReadSoFar & { readonly own: SlotId | null }) {
  const words = useWords();
  const when = sayWhen(made, month);
  return (
    <div className="number-reading">
      <p>
        <b>{words.makerName(maker)}</b> {pattern}
        {when !== null && <span className="soft"> · {when}</span>}
        {own !== null && slot !== null && slot !== own && <span className="number-wrong"> · its code says {words.slotName(slot)}</span>}
        {ofAnother && <span className="number-wrong"> · the trade name is another maker’s</span>}
      </p>
      <ol className="number-pieces" aria-label={`${words.makerName(maker)}: piece by piece`}>
        {pieces.map((piece, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the place among the pieces is what a piece is known by.
          <Piece key={at} {...piece} />
        ))}
      </ol>
    </div>
  );
}

function Piece({ from, text, name, means, state, wanted }: PieceSoFar) {
  return (
    <li data-piece={state.replace(' ', '-')}>
      <span className="number-signs">{text === '' ? '·' : text}</span>
      <span className="number-says">
        {state === 'wrong' && `sign ${from + 1}: `}
        {means ?? name}
        {wanted !== null && <span className="number-wanted">{`${state === 'wrong' ? ', which wants' : ':'} ${wanted}`}</span>}
      </span>
    </li>
  );
}

function OfPart({ name, slot, models, supersededBy }: PartSoFar) {
  const words = useWords();
  return (
    <p className="number-of">
      <b>{name}</b>
      {!name.includes(words.slotName(slot)) && <span className="soft"> {words.slotName(slot)}</span>}
      {models.length > 0 &&
        ` of ${someOf(models.map((model) => [model.name, sayWhen(model.built, null)].filter((one) => one !== null).join(', ')))}`}
      {supersededBy !== null && (
        <span className="number-superseded">
          {' '}
          · superseded by {supersededBy.number === null ? supersededBy.name : `${supersededBy.number}, ${supersededBy.name}`}
        </span>
      )}
    </p>
  );
}
