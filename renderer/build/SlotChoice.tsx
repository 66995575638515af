import { useState } from 'react';
import type { MakerId, PartId, Sheet, SlotId, SlotOption, SlotOptions } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useBenchActions } from '../bench/BenchContext.ts';
import { withAbsent } from '../bench/sheetEdits.ts';
import { PartNames } from '../bridge/PartNames.tsx';
import { PartText } from '../bridge/PartText.tsx';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { asId } from '../route/asId.ts';
import { fixed } from '../values/figures.ts';
import { sayMany } from '../values/sayMany.ts';
import { walkButtons } from './ChosenSlots.tsx';
import { InHand } from './InHand.tsx';
import { sayHours } from './sayBuild.ts';
import { withChosen } from './startBuild.ts';

const kinds: readonly SlotOption['verdict'][] = ['drops in', 'after work', 'not known'];
const step = 12;

/** What may go into one slot: what drops in, what needs work, what is not known, and why the rest does not. */
export function SlotChoice({ slot, sheet }: { readonly slot: SlotId; readonly sheet: Sheet }) {
  const words = useWords();
  const { edit } = useBenchActions();
  const asked = useAsk('build.options', { sheet, slot });
  const answer = latest(asked);
  const [maker, setMaker] = useState<MakerId | ''>('');
  const chosen = sheet.chosen[slot];
  const absent = sheet.absent.includes(slot);
  const inSlot = words.slots.find(({ id }) => id === slot);
  const [goneWith, setGoneWith] = useState(0);
  const choose = (part: PartId | null) => {
    setGoneWith(part === chosen ? 0 : sheet.observations.filter((one) => one.slot === slot && chosen !== undefined).length);
    edit(withChosen(slot, part));
  };
  const makers = words.vocabulary.makers.filter(({ id }) => answer?.options.some((option) => option.maker === id));
  return (
    <section className="slot-choice" aria-labelledby="slot-choice" aria-busy={asked.state === 'waiting'} data-state={asked.state}>
      <div className="block-head">
        <h2 id="slot-choice" className="head">
          For the <TermsText text={words.slotName(slot)} />
        </h2>
        {makers.length > 1 && (
          <select
            className="field small"
            aria-label="Show parts of"
            value={maker}
            onChange={(event) => setMaker(event.target.value === '' ? '' : asId<MakerId>(event.target.value))}
          >
            <option value="">any maker</option>
            {makers.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
        {chosen !== undefined && (
          <button type="button" className="button plain" onClick={() => choose(null)}>
            Take out
          </button>
        )}
        {chosen === undefined && (
          <label className="tick small">
            <input type="checkbox" checked={absent} onChange={(event) => edit(withAbsent(slot, event.target.checked))} /> build without it
          </label>
        )}
      </div>
      {goneWith > 0 && !sheet.observations.some((one) => one.slot === slot) && (
        <p className="small soft" role="status">
          What was measured on the part before ({sayMany(goneWith, 'entry', 'entries')}) went out with it; undo brings both back.
        </p>
      )}
      {chosen !== undefined && inSlot !== undefined && <InHand key={slot} slot={inSlot} />}
      {asked.state === 'trouble' && <TroubleNote lead="The parts could not be judged." trouble={asked.trouble} />}
      {answer === null && asked.state === 'waiting' && <p className="soft">Judging the parts…</p>}
      {answer !== null && (
        <>
          {answer.joints.length === 0 && (
            <p className="small soft">No part it meets is chosen yet, so nothing speaks against any of these.</p>
          )}
          {/* biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every part is a button of its own. */}
          <div onKeyDown={walkButtons}>
            {kinds.map((kind) => (
              <OptionGroup key={`${kind} ${maker}`} kind={kind} answer={answer} maker={maker} chosen={chosen} onChoose={choose} />
            ))}
            <Rest answer={answer} />
          </div>
        </>
      )}
    </section>
  );
}

interface GroupProps {
  readonly kind: SlotOption['verdict'];
  readonly answer: SlotOptions;
  readonly maker: MakerId | '';
  readonly chosen: PartId | undefined;
  onChoose(part: PartId): void;
}

function OptionGroup({ kind, answer, maker, chosen, onChoose }: GroupProps) {
  const [limit, setLimit] = useState(step);
  const options = answer.options.filter((option) => option.verdict === kind && (maker === '' || option.maker === maker));
  if (options.length === 0) return null;
  return (
    <div className="option-group">
      <h3>
        <FitMark verdict={kind} /> <span className="small soft">{sayMany(options.length, 'part')}</span>
      </h3>
      <ul aria-label={capital(kind)}>
        {options.slice(0, limit).map((option) => (
          <OptionRow key={option.part} option={option} chosen={option.part === chosen} onChoose={() => onChoose(option.part)} />
        ))}
      </ul>
      {options.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 5 * step)}>
          {options.length - limit} more
        </button>
      )}
    </div>
  );
}

function OptionRow({ option, chosen, onChoose }: { readonly option: SlotOption; readonly chosen: boolean; onChoose(): void }) {
  const words = useWords();
  const told = option.joints.filter(({ verdict }) => verdict !== 'drops in');
  return (
    <li>
      <button type="button" className="option-line" aria-pressed={chosen} onClick={onChoose}>
        <span>
          <PartText part={option.part} />
        </span>
        <span className="small soft">
          {[
            option.maker === null ? 'pattern' : words.makerName(option.maker),
            option.operations > 0 ? `${sayMany(option.operations, 'operation')}, ${sayHours(option.hours)}` : null,
            option.price === null ? null : fixed(option.price, 2),
          ]
            .filter((each) => each !== null)
            .join(' · ')}
        </span>
      </button>
      {told.length > 0 && (
        <details className="option-why small">
          <summary>{told.map(({ joint }) => words.jointName(joint)).join(', ')}</summary>
          <ul>{told.flatMap(({ joint, sentences }) => sentences.map((sentence) => <li key={`${joint} ${sentence}`}>{sentence}</li>))}</ul>
        </details>
      )}
    </li>
  );
}

function Rest({ answer }: { readonly answer: SlotOptions }) {
  const [limit, setLimit] = useState(step);
  const many = answer.rest.reduce((sum, { parts }) => sum + parts.length, 0);
  if (many === 0) return null;
  return (
    <div className="option-group">
      <h3>
        <FitMark verdict="will not fit" />{' '}
        <span className="small soft">
          {sayMany(many, 'part')}, for {sayMany(answer.rest.length, 'set')} of reasons
        </span>
      </h3>
      <ul aria-label="Will not fit">
        {answer.rest.slice(0, limit).map(({ because, parts }) => (
          <li key={parts[0]}>
            <details className="option-why small">
              <summary>
                {parts.length === 1 && parts[0] !== undefined ? <PartText part={parts[0]} /> : sayMany(parts.length, 'part')}:{' '}
                <span className="soft">{because[0] ?? 'no reason given'}</span>
              </summary>
              <ul>
                {because.map((sentence) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
              <p>
                <PartNames parts={parts} />
              </p>
            </details>
          </li>
        ))}
      </ul>
      {answer.rest.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 5 * step)}>
          {answer.rest.length - limit} more sets
        </button>
      )}
    </div>
  );
}
