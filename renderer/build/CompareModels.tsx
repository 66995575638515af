import { useState } from 'react';
import type { Compared, ComparedRow, ModelId } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { type Asked, latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { Combobox } from '../look/Combobox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayMany } from '../values/sayMany.ts';

/** Two models side by side, differences first. */
export function CompareModels() {
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
            <td colSpan={2}>{row.a ?? <span className="soft">nothing</span>}</td>
          ) : (
            <>
              <td>{row.a ?? <span className="soft">nothing</span>}</td>
              <td>{row.b ?? <span className="soft">nothing</span>}</td>
            </>
          )}
        </tr>
      ))}
    </>
  );
}
