import { useEffect, useMemo, useRef, useState } from 'react';
import type { OpenedSheet } from '../../db/answers.ts';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import type { PartId, Sheet, SheetId } from '../../reasoner/index.ts';
import { mostCompared } from '../../reasoner/plain/most-compared.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { titleOf } from '../bench/titleOf.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { desk } from '../bridge/desk.ts';
import { latest, latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox, type ComboItem } from '../look/Combobox.tsx';
import { Letterhead } from '../look/Letterhead.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo } from '../route/route.ts';
import type { LyingOf } from './BuildsCellText.tsx';
import { BuildsTable, type ColumnHead } from './BuildsTable.tsx';
import { sayHours } from './sayBuild.ts';
import { withAllChosen } from './startBuild.ts';
import { type BuildColumn, columnKey, type SideBySide } from './useSideBySide.ts';

export interface CompareBuildsProps {
  readonly side: SideBySide;
  /** Parts that need not be bought; null where the stock list cannot be read, undefined until it is there. */
  readonly stock: readonly PartId[] | null | undefined;
  readonly lying: LyingOf;
}

/** Builds side by side: what a search found, what is on the bench, what is saved. */
export function CompareBuilds({ side, stock, lying }: CompareBuildsProps) {
  const words = useWords();
  const { sheet } = useBench();
  const { edit, takeUp } = useBenchActions();
  const sheets = latest(useAsk('sheets.list', {}));
  const adder = useRef<HTMLInputElement>(null);
  const frame = useRef<HTMLElement>(null);
  const [opened, setOpened] = useState<Readonly<Record<SheetId, OpenedSheet>>>({});
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const bench = useMemo(() => ({ ...whatMatters(sheet), title: titleOf(sheet) }), [sheet]);
  const { columns, variants, full } = side;

  const wanted = columns.flatMap((column) => (column.kind === 'saved' && opened[column.id] === undefined ? [column.id] : []));
  const missing = wanted.join();
  // biome-ignore lint/correctness/useExhaustiveDependencies: `missing` stands for `wanted`, which is a new list at every render.
  useEffect(() => {
    for (const id of wanted)
      void desk.ask('sheets.open', { id }).then((reply) => {
        if (reply.ok) setOpened((before) => ({ ...before, [id]: reply.value }));
        else setTrouble(reply.trouble);
      });
  }, [missing]);

  const built = columns.map((column) => builtOf(column, bench, opened));
  const ready = columns.length >= 2 && stock !== undefined && built.every((each) => each !== null);
  const args = ready ? ({ builds: built, stock: stock === null ? null : [...stock] } as CallArgs<'compare.builds'>) : null;
  const asked = useAsk('compare.builds', args);
  const given = latestGiven(asked);
  const answer = ready && given !== null && given.args.builds.length === columns.length ? given.value : null;
  const drawn = answer !== null;
  useEffect(() => {
    // Whoever comes from the search has pressed a button that is gone.
    if (drawn && document.activeElement === document.body) frame.current?.focus();
  }, [drawn]);

  const offered = [
    ...(sheet.kind === 'planned' ? [{ kind: 'bench' } as const] : []),
    ...variants,
    ...(sheets ?? []).flatMap((each) =>
      each.kind === 'planned' && each.id !== sheet.id ? [{ kind: 'saved', id: each.id, title: titleOf(each) } as const] : [],
    ),
  ].filter((column) => !columns.some((each) => columnKey(each) === columnKey(column)));
  const items = offered.map((column) => itemOf(column, titleOf(sheet)));
  const putOf = (column: BuildColumn): ColumnHead['put'] => {
    switch (column.kind) {
      case 'bench':
        return null;
      case 'variant':
        return { name: 'Put on the bench', onPut: () => onBench(() => edit(withAllChosen(column.build.chosen))) };
      case 'saved': {
        const stored = opened[column.id];
        return stored === undefined ? null : { name: 'Open', onPut: () => onBench(() => takeUp(stored.sheet, stored)) };
      }
    }
  };
  const takeOut = (column: BuildColumn) => {
    side.takeOut(column);
    setTrouble(null);
    adder.current?.focus();
  };
  const heads = columns.map((column): ColumnHead => {
    const { text: title, whence } = saidOf(column, titleOf(sheet));
    return { key: columnKey(column), title, whence, put: putOf(column), onTakeOut: () => takeOut(column) };
  });
  return (
    <>
      <div className="compare-head no-print">
        {full ? (
          <p className="soft small">{mostCompared} side by side at most; take one out to add another.</p>
        ) : (
          <Combobox
            label="Add a build"
            placeholder={columns.length < 2 ? 'add a build: some letters of its title' : 'add another build'}
            items={items}
            none="No other build by that name."
            input={adder}
            onPick={(column) => {
              setTrouble(null);
              side.add(column);
            }}
          />
        )}
        <button type="button" className="button" disabled={answer === null} onClick={() => window.print()}>
          Print the comparison
        </button>
      </div>
      {trouble !== null && <TroubleNote lead="The build could not be opened." trouble={trouble} />}
      {asked.state === 'trouble' && ready && <TroubleNote lead="They could not be compared." trouble={asked.trouble} />}
      <Letterhead onPaper />
      <h2 className="print-only">Builds side by side</h2>
      {columns.length < 2 && (
        <p className="soft">
          {columns.length === 1 && heads[0] !== undefined ? `${heads[0].title} stands here. Add another` : 'Add two or more'}, and what
          differs stands first. What a search found is ticked in its own table, under Fill the open slots.
        </p>
      )}
      {columns.length >= 2 && answer === null && asked.state !== 'trouble' && <p className="soft">Comparing…</p>}
      {columns.length >= 1 && (answer !== null || columns.length < 2 || asked.state === 'trouble') && (
        <BuildsTable heads={heads} answer={answer} stockKnown={stock !== null} lying={lying} frame={frame} />
      )}
      <p className="print-only small soft">
        Atlas: {words.vocabulary.packs.map((pack) => `${pack.title}, ${pack.edition}`).join('; ')}
        {words.vocabulary.packs.some((pack) => pack.invented) && '. Invented data'}
      </p>
    </>
  );
}

const onBench = (put: () => void): void => {
  put();
  goTo({ screen: 'build', place: 'bench' });
};

/** What a column is called, and where it comes from. */
const saidOf = (column: BuildColumn, bench: string): { readonly text: string; readonly whence: string } => {
  switch (column.kind) {
    case 'bench':
      return { text: bench, whence: 'on the bench' };
    case 'variant':
      return { text: `Variant ${column.number}`, whence: 'found by the search' };
    case 'saved':
      return { text: column.title, whence: 'saved' };
  }
};

const itemOf = (column: BuildColumn, bench: string): ComboItem<BuildColumn> => {
  const { text, whence } = saidOf(column, bench);
  const detail =
    column.kind === 'variant'
      ? `${column.build.names.map((name) => name.text).join(' or ') || 'no name'}; ${sayHours(column.build.hours)}`
      : whence;
  return { key: columnKey(column), text, detail, value: column };
};

type Built = CallArgs<'compare.builds'>['builds'][number];

/** What the desk is asked about a column; null until its sheet is here. */
const builtOf = (column: BuildColumn, bench: Sheet, opened: Readonly<Record<SheetId, OpenedSheet>>): Built | null => {
  switch (column.kind) {
    case 'bench':
      return { sheet: bench } as Built;
    case 'variant':
      return {
        sheet: { ...withAllChosen(column.build.chosen)(column.of), title: `Variant ${column.number}` },
        works: column.build.works,
      } as Built;
    case 'saved': {
      const stored = opened[column.id];
      return stored === undefined ? null : ({ sheet: { ...whatMatters(stored.sheet), title: column.title } } as Built);
    }
  }
};
