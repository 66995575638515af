import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';

/** What is done with the whole sheet: undo, redo, the report, save; and whether it is kept. Elsewhere (not `whole`) only keeping it matters. */
export function UnitBar({ whole }: { readonly whole: boolean }) {
  const { unit, sheet, unsaved, elsewhere } = useBench();
  const { undo, redo, save, seeBoth } = useBenchActions();
  const { history, saving } = unit;
  return (
    <div className="unit-bar no-print" role="toolbar" aria-label="Sheet">
      {whole && (
        <>
          <button type="button" className="button plain" disabled={history.past.length === 0} onClick={undo} aria-keyshortcuts="Control+Z">
            Undo
          </button>
          <button
            type="button"
            className="button plain"
            disabled={history.future.length === 0}
            onClick={redo}
            aria-keyshortcuts="Control+Y"
          >
            Redo
          </button>
          {sheet.kind === 'found' && (
            <a className="button plain" href={hrefOf({ screen: 'report' })}>
              Report
            </a>
          )}
        </>
      )}
      <span className="save-state" role="status">
        {unit.recovered && unsaved && <span className="brought-back">Unsaved entries brought back. </span>}
        {saving.state === 'saving' ? 'Saving…' : unsaved ? 'Not saved' : !whole ? '' : unit.kept === null ? 'Nothing entered' : 'Saved'}
      </span>
      {elsewhere !== null && (
        <button type="button" className="link small" onClick={seeBoth}>
          {elsewhere === 'removed' ? 'Removed elsewhere…' : 'Changed elsewhere…'}
        </button>
      )}
      {(whole || unsaved) && (
        <button
          type="button"
          className="button main"
          disabled={!unsaved || saving.state === 'saving'}
          onClick={() => void save()}
          aria-keyshortcuts="Control+S"
        >
          Save
        </button>
      )}
      {saving.state === 'trouble' && <TroubleNote lead="Not saved." trouble={saving.trouble} />}
    </div>
  );
}
