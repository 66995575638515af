import { newSheetId } from '../bench/sheetEdits.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { sayMany } from '../values/sayMany.ts';
import { sayWhen } from '../values/sayWhen.ts';
import { type Question, type Shelf, titleOf } from './useShelf.ts';

/** Asked before a sheet is removed for good, and before one read from a file takes the place of one that is here. */
export function ShelfQuestion({ question, shelf }: { readonly question: Question; readonly shelf: Shelf }) {
  const leave = () => shelf.ask(null);
  if (question.about === 'remove') return <RemoveQuestion question={question} shelf={shelf} />;
  const settle = (how: () => void) => {
    leave();
    how();
  };
  const { sheet } = question;
  return (
    <AskDialog
      title="This sheet is here already"
      onLeave={leave}
      choices={[
        { label: 'Read it as a copy', tone: 'main', run: () => settle(() => shelf.putOnBench({ ...sheet, id: newSheetId() }, null)) },
        { label: 'Let it take the place of the one here', tone: 'usual', run: () => settle(() => void shelf.putInPlace(sheet)) },
      ]}
    >
      <p>
        The file holds <b>{titleOf(sheet.title)}</b>, whose id is that of a sheet on the shelf. Nothing is overwritten before you save.
      </p>
    </AskDialog>
  );
}

function RemoveQuestion({ question, shelf }: { readonly question: Extract<Question, { about: 'remove' }>; readonly shelf: Shelf }) {
  const { one, stored, stale } = question;
  const { saved, whole, sheet } = stored;
  const number = saved?.number ?? one.number;
  const photos = one.photos > 0 && ` and ${sayMany(one.photos, 'photograph')}`;
  return (
    <AskDialog
      title={stale ? 'This sheet was changed elsewhere. Remove it all the same?' : 'Remove this sheet?'}
      onLeave={() => shelf.ask(null)}
      choices={[
        {
          label: stale ? 'Remove it all the same' : 'Remove it',
          tone: 'danger',
          run: () => whole !== null && void shelf.remove(one, whole),
        },
      ]}
    >
      {stale && saved !== null && (
        <p>
          It is not as you have seen it: {saved.who === '' ? 'somebody' : <b>{saved.who}</b>} saved it last, {sayWhen(saved.at)}, or wrote
          on its case since. Open it to see what it says now.
        </p>
      )}
      <p>
        Case {number}, <b>{titleOf(sheet.title)}</b>, is removed for good with its {sayMany(sheet.observations.length, 'entry', 'entries')},
        its history
        {photos}. Its number is not given again. Write it to a file first if the sheet may be wanted again.
      </p>
    </AskDialog>
  );
}
