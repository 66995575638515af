import { useMemo, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Compared, ComparedRow, ModelId, Sheet, SheetId } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { useBench } from '../bench/BenchContext.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { desk } from '../bridge/desk.ts';
import { type Asked, latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { Combobox } from '../look/Combobox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { asId } from '../route/asId.ts';
import { withSign } from '../values/figures.ts';
import { sayMany } from '../values/sayMany.ts';

const kinds = [
  ['builds', 'two builds'],
  ['models', 'two models'],
] as const;

/** Two builds or two models side by side, differences first. */
export function ComparePage() {
  const [kind, setKind] = useState<'builds' | 'models'>('builds');
  return (
    <div className="compare-page">
      <fieldset className="filters" aria-label="What is compared">
        {kinds.map(([value, name]) => (
          <label key={value}>
            <input type="radio" name="compare-kind" value={value} checked={kind === value} onChange={() => setKind(value)} /> {name}
          </label>
        ))}
      </fieldset>
      {kind === 'builds' ? <CompareBuilds /> : <CompareModels />}
    </div>
  );
}

const onBench = 'on the bench';

function CompareBuilds() {
  const { sheet } = useBench();
  const sheets = latest(useAsk('sheets.list', {}));
  const planned = sheets?.filter(({ kind, id }) => kind === 'planned' && id !== sheet.id) ?? [];
  const [opened, setOpened] = useState<Readonly<Record<string, Sheet>>>({});
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [picked, setPicked] = useState<readonly [string, string]>([sheet.kind === 'planned' ? onBench : '', '']);
  const bench = useMemo(() => ({ ...whatMatters(sheet), title: sheet.title }), [sheet]);
  const pick = async (at: 0 | 1, id: string) => {
    setPicked(at === 0 ? [id, picked[1]] : [picked[0], id]);
    setTrouble(null);
    if (id === '' || id === onBench || opened[id] !== undefined) return;
    const reply = await desk.ask('sheets.open', { id: asId<SheetId>(id) });
    if (reply.ok) setOpened((before) => ({ ...before, [id]: reply.value.sheet }));
    else setTrouble(reply.trouble);
  };
  const sheetOf = (id: string): Sheet | undefined => (id === onBench ? bench : opened[id]);
  const [a, b] = [sheetOf(picked[0]), sheetOf(picked[1])];
  const asked = useAsk('compare.builds', a === undefined || b === undefined ? null : { a, b });
  return (
    <>
      <div className="compare-picks">
        {([0, 1] as const).map((at) => (
          <label key={at}>
            {at === 0 ? 'One build' : 'The other'}
            <select className="field" value={picked[at]} onChange={(event) => void pick(at, event.target.value)}>
              <option value="">choose a build</option>
              {sheet.kind === 'planned' && (
                <option value={onBench}>On the bench: {sheet.title === '' ? 'untitled build' : sheet.title}</option>
              )}
              {planned.map(({ id, title }) => (
                <option key={id} value={id}>
                  {title === '' ? 'untitled build' : title}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
      {trouble !== null && <TroubleNote lead="The build could not be opened." trouble={trouble} />}
      <ComparedAnswer asked={asked} ready={a !== undefined && b !== undefined} />
    </>
  );
}

function CompareModels() {
  const words = useWords();
  const [picked, setPicked] = useState<readonly [ModelId | null, ModelId | null]>([null, null]);
  const [a, b] = picked;
  const asked = useAsk('compare.models', a === null || b === null ? null : { a, b });
  const items = words.vocabulary.models.map((model) => ({
    key: model.id,
    text: model.name,
    detail: words.familyName(model.family),
    value: model.id,
  }));
  return (
    <>
      <div className="compare-picks">
        {([0, 1] as const).map((at) => (
          <div key={at}>
            <span>
              {at === 0 ? 'One model' : 'The other'}
              {picked[at] !== null && (
                <>
                  : <b>{words.modelName(picked[at])}</b>
                </>
              )}
            </span>
            <Combobox
              label={at === 0 ? 'One model' : 'The other model'}
              placeholder="type a model"
              items={items}
              none="The atlas lists no such model."
              onPick={(id) => setPicked(at === 0 ? [id, b] : [a, id])}
            />
          </div>
        ))}
      </div>
      <ComparedAnswer asked={asked} ready={a !== null && b !== null} />
    </>
  );
}

function ComparedAnswer({ asked, ready }: { readonly asked: Asked<Compared>; readonly ready: boolean }) {
  const answer = latest(asked);
  if (!ready) return <p className="soft">Choose two, and their differences stand first.</p>;
  if (asked.state === 'trouble') return <TroubleNote lead="The two could not be compared." trouble={asked.trouble} />;
  return answer === null ? <p className="soft">Comparing…</p> : <ComparedTable compared={answer} />;
}

function ComparedTable({ compared }: { readonly compared: Compared }) {
  const [all, setAll] = useState(false);
  const shown = compared.rows.filter(({ same }) => all || !same);
  const alike = compared.rows.length - compared.differences;
  return (
    <>
      <p role="status" className="complete-word">
        {compared.differences === 0 ? 'No difference' : sayMany(compared.differences, 'difference')}; {alike} alike.{' '}
        <label className="tick">
          <input type="checkbox" checked={all} onChange={(event) => setAll(event.target.checked)} /> show what is alike
        </label>
      </p>
      {shown.length > 0 && (
        <table className="plan-table compared">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">{compared.a}</th>
              <th scope="col">{compared.b}</th>
            </tr>
          </thead>
          <tbody>
            {grouped(shown).map(({ key, group, same, rows }) => (
              <GroupRows key={key} group={group} same={same} rows={rows} />
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

interface Group {
  readonly key: string;
  readonly group: ComparedRow['group'];
  readonly same: boolean;
  readonly rows: readonly ComparedRow[];
}

/** Of hours and money the answer says bare figures; the rest is sentences and names, which stay as they are. */
const sayEither = ({ group }: ComparedRow, said: string | null): string | null =>
  group === 'cost' && said !== null ? withSign(said) : said;

/** Rows of one group together, in the order their groups come up: differences before what is alike. */
function grouped(rows: readonly ComparedRow[]): readonly Group[] {
  const groups = new Map<string, { group: ComparedRow['group']; same: boolean; rows: ComparedRow[] }>();
  for (const row of rows) {
    const key = `${row.same} ${row.group}`;
    const group = groups.get(key) ?? { group: row.group, same: row.same, rows: [] };
    group.rows.push(row);
    groups.set(key, group);
  }
  return [...groups].map(([key, group]) => ({ key, ...group }));
}

function GroupRows({ group, same, rows }: Omit<Group, 'key'>) {
  return (
    <>
      <tr className="group-row">
        <th scope="rowgroup" colSpan={3} className="head">
          {group}
          {same && ' (alike)'}
        </th>
      </tr>
      {rows.map((row) => (
        <tr key={`${row.what} ${row.a} ${row.b}`} className={same ? 'is-same' : undefined}>
          <th scope="row">
            <TermsText text={capital(row.what)} />
          </th>
          {same ? (
            <td colSpan={2}>{sayEither(row, row.a) ?? <span className="soft">nothing</span>}</td>
          ) : (
            <>
              <td>{sayEither(row, row.a) ?? <span className="soft">nothing</span>}</td>
              <td>{sayEither(row, row.b) ?? <span className="soft">nothing</span>}</td>
            </>
          )}
        </tr>
      ))}
    </>
  );
}
