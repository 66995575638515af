import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import type { ChangeSeen, EntrySeen } from '../../db/answers.ts';
import type { EntryForm } from '../../electron/bridge/edit-calls.ts';
import { capital, numberInWords } from '../../reasoner/plain/text.ts';
import { latest, latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { keys } from '../look/keys.ts';
import { recall, remember } from '../look/preference.ts';
import { presses } from '../look/presses.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { asId } from '../route/asId.ts';
import { goInstead, hrefOf, type Route } from '../route/route.ts';
import { CarryOver } from './CarryOver.tsx';
import { ChangePanel } from './ChangePanel.tsx';
import { type Draft, setDraft, useDraft } from './drafts.ts';
import { editsOf } from './editsOf.ts';
import { useEntryName } from './entryNames.ts';
import { FormContext } from './FormContext.ts';
import { EntryFields } from './FormField.tsx';
import { listWords } from './fieldWords.ts';
import type { JsonObject } from './json.ts';
import { MadeNote, MakeBar, sayInTheWay } from './MakeBar.tsx';
import { MakerForm } from './MakerForm.tsx';
import { ModelForm } from './ModelForm.tsx';
import { useMakingHere } from './making.ts';
import { PackWords } from './PackWords.tsx';
import { PartForm } from './PartForm.tsx';
import { sayFault } from './sayFault.ts';
import { blankOf } from './shapes.ts';
import { useFreeId } from './useFreeId.ts';
import { useLook } from './useLook.ts';
import { useReadCells } from './useReadCells.ts';
import { useSits } from './useSits.ts';

/** One entry in its form, or a new one, with what it would change beside it. */
export function EntryPage({ list, id, like }: { readonly list: string; readonly id: string | null; readonly like: string | null }) {
  const from = id ?? like;
  const form = useAsk('edit.form', list === 'parts' ? null : { list });
  const held = useAsk('changes.entry', from === null ? null : { list, id: from });
  const facts = factsIn(latest(held)?.entry);
  const cells = useAsk('edit.cells', list === 'parts' && latest(held) !== null ? { facts: facts as never } : null);
  const shown = useRef<{ readonly seen: EntrySeen | null; readonly start: Draft } | null>(null);
  const sits = useSits(list === 'models' ? from : null);

  for (const asked of [form, held, cells, sits.asked])
    if (asked.state === 'trouble')
      return (
        <div className="edit-lists">
          <p className="head">
            <a href={hrefOf({ screen: 'edit', place: { at: 'list', list } })}>{listWords[list]?.name}</a>
          </p>
          <MadeNote place={`${list}/${id}`} />
          <TroubleNote lead="There is nothing here to edit." trouble={asked.trouble} />
        </div>
      );
  const [shape, seen, written] = [latest(form), latest(held), latestGiven(cells)];
  const ready =
    (list === 'parts' || shape !== null) &&
    (from === null || seen !== null) &&
    (list !== 'parts' || from === null || JSON.stringify(written?.args.facts) === JSON.stringify(facts)) &&
    (list !== 'models' || from === null || sits.sits !== null);
  // After a change what stood there stays, until all of what stands there now has come.
  if (ready)
    shown.current = {
      seen: id === null ? null : seen,
      start: {
        entry: (seen?.entry ?? blank(list, shape)) as JsonObject,
        cells: (from === null ? {} : (written?.value ?? {})) as Draft['cells'],
        sits: sits.sits ?? [],
      },
    };
  if (shown.current === null) return <p className="edit-lists soft">Reading…</p>;
  return <EntryEditor list={list} id={id} form={shape} {...shown.current} like={like} />;
}

const factsIn = (entry: EntrySeen['entry'] | undefined): JsonObject => (entry?.facts ?? {}) as JsonObject;

const blank = (list: string, form: EntryForm | null): JsonObject => {
  const source = recall('edit source');
  const entry =
    list === 'parts'
      ? { id: '', slot: '', name: '', maker: null, numbers: [], facts: {}, source: '' }
      : ((form === null ? {} : blankOf(form.shape)) as JsonObject);
  return 'source' in entry && source !== null ? { ...entry, source } : entry;
};

interface EditorProps {
  readonly list: string;
  /** Null: a new one. */
  readonly id: string | null;
  readonly form: EntryForm | null;
  readonly seen: EntrySeen | null;
  /** What stands there before anything is typed. */
  readonly start: Draft;
  readonly like: string | null;
}

function EntryEditor({ list, id, form, seen, start, like }: EditorProps) {
  const words = useWords();
  const place = `${list}/${id ?? `new ${like}`}`;
  const [typed, setTyped] = useDraft(place);
  const draft = typed ?? (id === null && like !== null ? { ...start, entry: anotherLike(start.entry) } : start);
  const making = useMakingHere();
  const [carried, setCarried] = useState(false);
  const startFacts = useMemo(() => ({ facts: factsIn(start.entry as EntrySeen['entry']), cells: start.cells }), [start.entry, start.cells]);
  const { read, facts, wrong } = useReadCells(draft.cells, startFacts);
  const freeId = useFreeId(list, id === null ? String(draft.entry.name ?? draft.entry.title ?? draft.entry.drawing ?? '') : null);
  const entry = useMemo(() => {
    const own = id === null && draft.entry.id === start.entry.id ? { ...draft.entry, id: freeId } : draft.entry;
    return list === 'parts' ? withFacts(own, facts) : own;
  }, [draft.entry, start.entry, freeId, facts, id, list]);
  const before = id === null ? null : start;
  const edits = useMemo(
    () => (entry === null || (id === null && typed === null) ? [] : editsOf(list, before, { entry, sits: draft.sits })),
    [list, before, entry, draft.sits, id, typed],
  );
  // What the schema says is said at once; the atlas is asked of what is whole.
  const check = latestGiven(
    useAsk('edit.check', edits.length === 0 || entry === null ? null : { list, put: entry as { [field: string]: unknown } }, 60),
  );
  const wrongly = edits.length === 0 ? none : (check?.value ?? none);
  const asked = useLook(wrongly.length > 0 ? none : edits);
  const looked = wrongly.length > 0 ? { seen: null, last: faultsAlone(wrongly), trouble: null } : asked;
  const faults = useMemo(
    () =>
      new Map(
        (looked.last?.faults ?? []).flatMap((fault) =>
          fault.edit === 0 && fault.field !== null ? [[fault.field, sayFault(fault)] as const] : [],
        ),
      ),
    [looked.last],
  );
  const set = (next: Partial<Draft>) => setTyped({ ...draft, ...next });
  const setEntry = (next: JsonObject) => set({ entry: next });
  const page = pageOf(list, id ?? String(entry?.id ?? ''));
  const called = useEntryName(list, id);
  const name = String(draft.entry.name ?? draft.entry.title ?? called);
  const waits =
    wrong > 0
      ? `${wrong === 1 ? 'One value' : `${capital(numberInWords(wrong))} values`} cannot be read.`
      : facts === null && list === 'parts'
        ? 'Reading what is typed…'
        : wrongly.length > 0
          ? sayInTheWay(wrongly.length)
          : null;
  const make = async () => {
    if (waits !== null) return;
    const source = draft.entry.source;
    if (!(await making.make(edits, looked, `${list}/${String(entry?.id ?? '')}`))) return;
    if (id === null && typeof source === 'string' && source !== '') remember('edit source', source);
    setDraft(place, null);
    // Its form was empty before, and there is nothing to go back to in it: Back leads to where it was asked for.
    if (id === null && entry !== null) goInstead({ screen: 'edit', place: { at: 'entry', list, id: String(entry.id) } });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (!presses(event, keys.forms.lines.make)) return;
    event.preventDefault();
    event.stopPropagation();
    void make();
  };
  const one = listWords[list]?.one ?? list;
  if (carried && id !== null)
    return (
      <div className="edit-entry">
        <CarryOver list={list} id={id} name={name} onBack={() => setCarried(false)} />
      </div>
    );
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Ctrl+S is an addition; the button that makes the change does the same.
    <div className="edit-entry" onKeyDown={onKeyDown}>
      <div className="edit-form">
        <p className="head">
          <a href={hrefOf({ screen: 'edit', place: { at: 'list', list } })}>{listWords[list]?.name}</a>
          {page !== null && id !== null && (
            <>
              {' · '}
              <a href={hrefOf(page)}>Its page</a>
            </>
          )}
          {id !== null && (
            <>
              {' · '}
              <a href={hrefOf({ screen: 'edit', place: { at: 'new', list, like: id } })}>Another like it</a>
              {' · '}
              <a href={hrefOf({ screen: 'history', of: { list, id } })}>Its changes</a>
            </>
          )}
        </p>
        <h1 className="page-title">{id === null ? `A new ${one}` : name}</h1>
        <p className="small faint">
          {id === null ? (entry === null || !entry.id ? '' : `Its id will be “${String(entry.id)}”.`) : `Its id is “${id}”.`}
        </p>
        {seen !== null && <PackWords seen={seen} list={list} form={form} draft={draft} onTake={(next) => setTyped(next)} />}
        <FormContext value={{ list, references: form?.references ?? [], faults, entry: draft.entry }}>
          {list === 'parts' ? (
            <PartForm isNew={id === null} draft={draft} read={read} freeId={freeId} onChange={set} />
          ) : list === 'models' && form !== null ? (
            <ModelForm form={form} draft={draft} onChange={set} />
          ) : list === 'makers' && form !== null ? (
            <MakerForm form={form} entry={draft.entry} onChange={setEntry} />
          ) : (
            form !== null && <EntryFields shape={form.shape} value={draft.entry} onChange={setEntry} />
          )}
        </FormContext>
        {id !== null && (
          <p className="edit-carry">
            <button type="button" className="button" onClick={() => setCarried(true)}>
              Give it another id, make it one with another, or take it out…
            </button>
          </p>
        )}
      </div>
      <ChangePanel
        edits={edits}
        looked={looked}
        nothing={
          id === null
            ? 'As soon as something is typed, what it would add is shown here.'
            : 'As soon as something is typed, what it would change is shown here: before, and after.'
        }
      >
        {seen !== null && <WhoseWords seen={seen} />}
      </ChangePanel>
      <MakeBar
        place={place}
        edits={edits}
        looked={looked}
        waits={typed === null ? null : waits}
        madeIt={page !== null && <a href={hrefOf(page)}>{words.slots.length > 0 ? 'See its page' : 'Its page'}</a>}
        onMake={() => void make()}
        onDiscard={() => setTyped(null)}
      />
    </div>
  );
}

/** What is another in each case: its name or title, and the numbers of a part. */
const anotherLike = (entry: JsonObject): JsonObject => ({
  ...entry,
  ...Object.fromEntries(['name', 'title'].filter((field) => field in entry).map((field) => [field, `${String(entry[field])}, another`])),
  ...('numbers' in entry ? { numbers: [] } : {}),
});

const withFacts = (entry: JsonObject, facts: JsonObject | null): JsonObject | null => {
  if (facts === null) return null;
  const sources = entry.factSources as JsonObject | undefined;
  const kept = Object.fromEntries(Object.entries(sources ?? {}).filter(([feature]) => feature in facts));
  const { factSources: _sources, ...rest } = entry;
  return { ...rest, facts, ...(Object.keys(kept).length === 0 ? {} : { factSources: kept }) };
};

const none: readonly never[] = [];
const faultsAlone = (faults: ChangeSeen['faults']): ChangeSeen => ({
  head: '',
  counts: [],
  cells: [],
  cellsInAll: 0,
  carried: [],
  called: [],
  faults,
  warnings: [],
});

/** Whose the entry is, and whose word stands where it is altered. */
function WhoseWords({ seen }: { readonly seen: EntrySeen }) {
  const packs = seen.packs.filter(({ own }) => !own);
  if (packs.length === 0) return <p className="small soft">The shop’s own entry: no pack says anything of it.</p>;
  return (
    <p className="small soft">
      So it stands in {packs.map(({ title }) => `“${title}”`).join(' and ')}. What you change here is the shop’s word and goes before the
      {packs.length === 1 ? ' pack’s' : ' packs’'}; the {packs.length === 1 ? 'pack itself stays' : 'packs themselves stay'} as
      {packs.length === 1 ? ' it is' : ' they are'}.
    </p>
  );
}

/** The page of the atlas an entry has, where it has one. */
const pageOf = (list: string, id: string): Route | null => {
  switch (list) {
    case 'parts':
      return { screen: 'atlas', page: { kind: 'part', id: asId(id) } };
    case 'models':
      return { screen: 'atlas', page: { kind: 'model', id: asId(id) } };
    case 'families':
      return { screen: 'atlas', page: { kind: 'family', id: asId(id), beside: null } };
    case 'makers':
      return { screen: 'atlas', page: { kind: 'maker', id: asId(id) } };
    case 'terms':
      return { screen: 'glossary', term: id };
    default:
      return null;
  }
};
