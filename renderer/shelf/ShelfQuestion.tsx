import { newSheetId } from '../bench/sheetEdits.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { sayMany } from '../values/sayMany.ts';
import { type Question, type Shelf, titleOf } from './useShelf.ts';

/** Asked before a sheet is removed for good, and before one read from a file takes the place of one that is here. */
export function ShelfQuestion({ question, shelf }: { readonly question: Question; readonly shelf: Shelf }) {
  const leave = () => shelf.ask(null);
  const putOnBench = (sheet: Parameters<Shelf['putOnBench']>[0]) => {
    leave();
    shelf.putOnBench(sheet, false);
  };
  if (question.about === 'remove') {
    const { number, sheet, title, kind, observations, photos } = question.one;
    return (
      <AskDialog
        title="Remove this sheet?"
        onLeave={leave}
        choices={[{ label: 'Remove it', tone: 'danger', run: () => void shelf.remove({ id: sheet, title, kind }) }]}
      >
        <p>
          Case {number}, <b>{titleOf(title)}</b>, is removed for good with its {sayMany(observations, 'entry', 'entries')}, its history
          {photos > 0 && ` and ${sayMany(photos, 'photograph')}`}. Its number is not given again. Write it to a file first if the sheet may
          be wanted again.
        </p>
      </AskDialog>
    );
  }
  const { sheet } = question;
  return (
    <AskDialog
      title="This sheet is here already"
      onLeave={leave}
      choices={[
        { label: 'Read it as a copy', tone: 'main', run: () => putOnBench({ ...sheet, id: newSheetId() }) },
        { label: 'Let it take the place of the one here', tone: 'usual', run: () => putOnBench(sheet) },
      ]}
    >
      <p>
        The file holds <b>{titleOf(sheet.title)}</b>, whose id is that of a sheet on the shelf. Nothing is overwritten before you save.
      </p>
    </AskDialog>
  );
}
