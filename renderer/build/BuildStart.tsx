import { useMemo, useState } from 'react';
import type { OpenedSheet, SheetSummary } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { ModelId, Sheet, SheetId, SlotId } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { newSheetId } from '../bench/sheetEdits.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox } from '../look/Combobox.tsx';
import { NoModelsYet, NothingYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo } from '../route/route.ts';
import { buildFromCore, emptyBuild } from './startBuild.ts';

interface Props {
  /** Told when a build is begun, with the slots for which the first of several listed parts was taken. */
  onBegun(build: SheetId, several: readonly SlotId[]): void;
}

/** Where a build begins: from a model's core, from a build already planned, or from nothing. It opens beside what is open. */
export function BuildStart({ onBegun }: Props) {
  const words = useWords();
  const { takeUp } = useBenchActions();
  const sheets = latest(useAsk('sheets.list', {}));
  const planned = sheets?.filter(({ kind }) => kind === 'planned');
  const cores = useMemo(
    () =>
      words.vocabulary.models.map((model) => ({
        key: model.id,
        text: model.name,
        detail: words.makerName(words.familyMaker(model.family)),
        value: model.id,
      })),
    [words],
  );
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly trouble: Trouble } | null>(null);

  const begin = (sheet: Sheet, stored: OpenedSheet | null, several: readonly SlotId[] = []) => {
    onBegun(sheet.id, several);
    takeUp(sheet, stored);
    goTo({ screen: 'build', place: 'bench' });
  };
  const fromCore = async (id: ModelId) => {
    const reply = await desk.ask('atlas.model', { id });
    if (!reply.ok) return setTrouble({ lead: 'The model could not be read.', trouble: reply.trouble });
    const { sheet, several } = buildFromCore(reply.value, words.slots, newSheetId());
    begin(sheet, null, several);
  };
  const fromSheet = async (id: SheetId) => {
    const reply = await desk.ask('sheets.open', { id });
    if (!reply.ok) return setTrouble({ lead: 'The build could not be opened.', trouble: reply.trouble });
    begin(reply.value.sheet, reply.value);
  };
  return (
    <div className="build-start">
      <section aria-labelledby="start-core">
        <h2 id="start-core" className="head">
          Start from a core
        </h2>
        <p className="soft">The core of a model goes on the bench; housings and plate are yours to choose.</p>
        {words.vocabulary.models.length === 0 && <NoModelsYet so="so there is no core to start from" />}
        <Combobox
          label="Model whose core to start from"
          placeholder="type a model: Tern 7"
          items={cores}
          none="The atlas lists no such model."
          onPick={(id) => void fromCore(id)}
        />
      </section>
      <section aria-labelledby="start-empty">
        <h2 id="start-empty" className="head">
          Start from nothing
        </h2>
        <p className="soft">Every slot empty; the parts are chosen one by one.</p>
        <button type="button" className="button" onClick={() => begin(emptyBuild(newSheetId()), null)}>
          Empty build
        </button>
      </section>
      <section aria-labelledby="start-saved">
        <h2 id="start-saved" className="head">
          Go on with a planned build
        </h2>
        {sheets === null && <p className="soft">Fetching the sheets…</p>}
        {planned?.length === 0 && (
          <NothingYet>
            <p>
              None is planned yet. Begin one above, and <b>Save</b> it: it stands here then.
            </p>
          </NothingYet>
        )}
        <ul className="sheet-list">
          {planned?.map((each) => (
            <PlannedRow key={each.id} summary={each} onOpen={() => void fromSheet(each.id)} />
          ))}
        </ul>
      </section>
      {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
    </div>
  );
}

function PlannedRow({ summary, onOpen }: { readonly summary: SheetSummary; onOpen(): void }) {
  return (
    <li className="planned-row">
      <button type="button" className="link" onClick={onOpen}>
        {summary.title === '' ? 'untitled build' : summary.title}
      </button>
      <span className="soft small">{summary.origin === 'sample' ? 'sample' : 'the shop’s own'}</span>
    </li>
  );
}
