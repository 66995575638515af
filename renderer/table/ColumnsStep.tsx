import { useRef } from 'react';
import type { ColumnUse, UseOffered, WrittenUnit } from '../../electron/bridge/table-calls.ts';
import type { MakerId, SlotId } from '../../reasoner/index.ts';
import { columnName } from '../../reasoner/plain/column-name.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox } from '../look/Combobox.tsx';
import { asId } from '../route/asId.ts';
import { sayMany } from '../values/sayMany.ts';
import { KeptWays } from './KeptWays.tsx';
import type { TableWork } from './useTable.ts';

/** What each column was taken for, over what stands in it, to be corrected; and what holds for all rows. */
export function ColumnsStep({ table }: { readonly table: TableWork }) {
  const { matched, matching } = table;
  const words = useWords();
  const body = useRef<HTMLTableSectionElement>(null);
  const offered = latest(useAsk('table.uses', matching === null ? null : { kind: matching.kind, slot: matching.slot })) ?? [];
  if (matched === null || matching === null) return null;
  const unsure = matched.matches.filter((match, at) => !table.byHand.has(at) && (match.sure === 'asked' || match.sure === 'likely')).length;
  const has = (is: ColumnUse['is']) => matching.columns.some((use) => use.is === is);
  const makerValue = matching.maker === null ? '' : matching.maker === 'none' ? '*none' : matching.maker.id;
  const stepTo = (from: HTMLElement, by: 1 | -1) => {
    const all = [...(body.current?.querySelectorAll<HTMLElement>('input[role="combobox"]') ?? [])];
    all[all.indexOf(from) + by]?.focus();
  };
  return (
    <>
      <div className="table-fields table-about">
        <p>
          <b>{matched.file}</b>, {sayMany(matched.rows, 'row')}
          {matched.by !== null && (
            <>
              , read as it is kept in “{matched.by}”.{' '}
              <button type="button" className="button plain" onClick={() => void table.match({ template: '' })}>
                Read it by its headings alone
              </button>
            </>
          )}
        </p>
        {matched.sheets.length > 1 && (
          <label>
            Sheet
            <select className="field" value={matching.sheet ?? ''} onChange={(event) => void table.match({ sheet: event.target.value })}>
              {matched.sheets.map(({ name, hidden, rows }) => (
                <option key={name} value={name}>
                  {name}
                  {hidden ? ' (hidden)' : ''}, {sayMany(rows, 'row')}
                </option>
              ))}
            </select>
          </label>
        )}
        <label>
          Headings in row
          <input
            className="field table-number"
            type="number"
            min={0}
            max={20000}
            key={matching.headings}
            defaultValue={matching.headings}
            aria-description="0 where there are none"
            onBlur={(event) => {
              const row = Number(event.target.value);
              if (Number.isInteger(row) && row >= 0 && row !== matching.headings) void table.match({ headings: row });
            }}
          />
        </label>
        {matching.kind !== 'models' && !has('slot') && (
          <label>
            All rows are
            <select
              className="field"
              value={matching.slot ?? ''}
              onChange={(event) => {
                table.setMatching({ slot: event.target.value === '' ? null : asId<SlotId>(event.target.value) });
                void table.match({});
              }}
            >
              <option value="">not said</option>
              {words.slots.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        {matching.kind === 'parts' && (
          <label>
            Rows without a maker are by
            <select
              className="field"
              value={makerValue}
              onChange={(event) =>
                table.setMatching({
                  maker:
                    event.target.value === '' ? null : event.target.value === '*none' ? 'none' : { id: asId<MakerId>(event.target.value) },
                })
              }
            >
              <option value="">not said</option>
              <option value="*none">nobody: no maker’s name is on them</option>
              {words.vocabulary.makers.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        <button type="button" className="button main" disabled={table.busy} onClick={() => table.go('cells')}>
          Read the cells
        </button>
      </div>
      {matched.notes.map((note) => (
        <p key={note} className="table-note">
          {note}
        </p>
      ))}
      <p className="soft small" role="status">
        {unsure === 0
          ? 'Every column was recognised, or is passed over.'
          : `${unsure === 1 ? 'One column' : `${unsure} columns`} should be looked at: they are marked.`}
      </p>
      <table className="line-table table-columns">
        <thead>
          <tr>
            <th scope="col">
              <span className="unseen">Column</span>
            </th>
            <th scope="col">Heading</th>
            <th scope="col">First rows</th>
            <th scope="col">Taken for</th>
          </tr>
        </thead>
        <tbody ref={body}>
          {matching.columns.map((use, column) => {
            const match = matched.matches[column];
            const byHand = table.byHand.has(column);
            const marked = !byHand && (match?.sure === 'asked' || match?.sure === 'likely');
            return (
              <tr key={columnName(column)} className={marked ? 'is-unsure' : use.is === 'ignored' ? 'is-ignored' : ''}>
                <th scope="row" className="table-letter">
                  {columnName(column)}
                </th>
                <td className="table-heading">{matched.headings[column] || <span className="faint">no heading</span>}</td>
                <td className="table-sample">
                  {matched.first
                    .map((row) => row[column] ?? '')
                    .filter((text) => text !== '')
                    .slice(0, 4)
                    .join(' · ')}
                </td>
                <td>
                  <ColumnTaken
                    name={`${columnName(column)}, ${matched.headings[column] || 'no heading'}`}
                    use={use}
                    offered={offered}
                    others={byHand ? [] : (match?.others ?? [])}
                    why={byHand ? '' : (match?.why ?? '')}
                    onUse={(next) => table.setColumn(column, next)}
                    onStep={stepTo}
                  />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <KeptWays table={table} />
    </>
  );
}

interface TakenProps {
  readonly name: string;
  readonly use: ColumnUse;
  readonly offered: readonly UseOffered[];
  readonly others: readonly ColumnUse[];
  readonly why: string;
  onUse(use: ColumnUse): void;
  onStep(from: HTMLElement, by: 1 | -1): void;
}

const keyOf = (use: ColumnUse): string =>
  use.is === 'figure' ? `figure ${use.part} ${use.features.join(' ')}` : use.is === 'fitted' ? `fitted ${use.slot} ${use.role}` : use.is;

const units: readonly (readonly [WrittenUnit, string])[] = [
  ['cm', 'cm'],
  ['inch', 'inch'],
  ['thou', 'thousandths of an inch'],
];

function ColumnTaken({ name, use, offered, others, why, onUse, onStep }: TakenProps) {
  const words = useWords();
  const input = useRef<HTMLInputElement>(null);
  const labels = new Map(offered.map((one) => [keyOf(one.use), one.label]));
  const label = labels.get(keyOf(use)) ?? sayFigure(use, words) ?? (use.is === 'as brought out' ? 'what it was brought out with' : use.is);
  const first = others.flatMap((other) => offered.filter((one) => keyOf(one.use) === keyOf(other)));
  const items = [...first, ...offered.filter((one) => !first.includes(one))];
  const lengths =
    use.is === 'figure' &&
    use.part !== 'code' &&
    use.features.some((id) => words.feature(id)?.kind === 'measure' && words.feature(id)?.unit !== 'deg');
  const pick = (next: ColumnUse) => {
    const before = use.is === 'figure' ? use : null;
    onUse(next.is === 'figure' && before !== null ? { ...next, unit: before.unit, within: before.within } : next);
  };
  return (
    <div className="table-taken">
      <span className="table-use">{use.is === 'ignored' ? 'nothing' : label}</span>
      {lengths && (
        <>
          <label>
            <span className="unseen">Unit of {name}</span>
            <select
              className="field"
              value={use.unit === null || use.unit === 'mm' ? '' : use.unit}
              onChange={(event) => onUse({ ...use, unit: event.target.value === '' ? null : (event.target.value as WrittenUnit) })}
            >
              <option value="">mm</option>
              {units.map(([unit, text]) => (
                <option key={unit} value={unit}>
                  {text}
                </option>
              ))}
            </select>
          </label>
          {use.part === 'size' && (
            <label className="table-within">
              ±
              <input
                className="field table-number"
                inputMode="decimal"
                aria-label={`How far off a size of ${name} may be where nothing else says`}
                key={String(use.within)}
                defaultValue={use.within ?? ''}
                onBlur={(event) => {
                  const text = event.target.value.trim().replace(',', '.');
                  const within = text === '' ? null : Number(text);
                  if (within === null || (Number.isFinite(within) && within >= 0 && within <= 1000)) onUse({ ...use, within });
                }}
              />
            </label>
          )}
        </>
      )}
      <Combobox
        label={`Take column ${name} for`}
        placeholder="something else…"
        input={input}
        items={items.map((one) => ({ key: keyOf(one.use).replace(/\s/g, '_'), text: one.label, also: one.words, value: one.use }))}
        none="The atlas has nothing of that name."
        onPick={pick}
        onArrowAway={(by) => input.current !== null && onStep(input.current, by)}
      />
      {why !== '' && use.is !== 'as brought out' && <span className="small soft">{why}</span>}
    </div>
  );
}

/** A feature of other slots than all that are offered together. */
const sayFigure = (use: ColumnUse, words: ReturnType<typeof useWords>): string | null => {
  if (use.is !== 'figure') return null;
  const names = [...new Set(use.features.map((id) => words.featureName(id)))];
  const slots = [...new Set(use.features.flatMap((id) => words.feature(id)?.slot ?? []))].map((id) => words.slotName(id));
  return `${names.join(' or ')}${use.part === 'size' ? '' : `, ${use.part}`} — ${slots.length > 3 ? `${slots.length} kinds of part` : slots.join(', ')}`;
};
