import { useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { ModalBox } from '../look/ModalBox.tsx';
import { sayMany } from '../values/sayMany.ts';

interface Asked {
  readonly text: string;
  readonly file: string;
}
type Told<Table> = Promise<{ readonly ok: true; readonly value: Table } | { readonly ok: false; readonly trouble: Trouble }>;

interface Props<Table> {
  readonly label: string;
  look(asked: Asked): Told<Table>;
  takeIn(asked: Asked): Told<Table>;
  /** How many things of the list a table alters. */
  changes(table: Table): number;
  /** What it does: `2 lines were changed`. */
  say(table: Table, tense: Tense): string;
  /** What becomes of what the table leaves out. */
  readonly rest: string;
  onTaken(said: string): void;
}
export type Tense = 'was' | 'would be';

/** Reads a table of the shop's: says first what it would do, or every fault in it. */
export function TableIn<Table>(props: Props<Table>) {
  const { changes, say } = props;
  const [looked, setLooked] = useState<(Asked & { readonly table: Table }) | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const look = async (picked: File): Promise<void> => {
    const asked = { text: await picked.text(), file: picked.name };
    const reply = await props.look(asked);
    if (reply.ok) setLooked({ ...asked, table: reply.value });
    else setTrouble(reply.trouble);
  };
  const take = async ({ text, file }: Asked): Promise<void> => {
    setLooked(null);
    const reply = await props.takeIn({ text, file });
    if (reply.ok) props.onTaken(`Taken in from ${file}: ${say(reply.value, 'was')}.`);
    else setTrouble(reply.trouble);
  };
  return (
    <>
      <FileChooser
        label={props.label}
        of={{ accept: '.csv,text/csv' }}
        onChosen={([picked]) => {
          if (picked !== undefined) void look(picked);
        }}
      >
        Read a table…
      </FileChooser>
      {looked !== null && (
        <AskDialog
          title={`Take in ${looked.file}?`}
          choices={changes(looked.table) === 0 ? [] : [{ label: 'Take it in', tone: 'main', run: () => void take(looked) }]}
          onLeave={() => setLooked(null)}
        >
          <p>
            {changes(looked.table) === 0
              ? 'It says nothing that the list does not say already.'
              : `By it ${say(looked.table, 'would be')}. ${props.rest}`}
          </p>
        </AskDialog>
      )}
      {trouble !== null && (
        <ModalBox title="The table was not taken in" className="shop-dialog" onLeave={() => setTrouble(null)}>
          <p>
            {trouble.all === undefined
              ? trouble.sentence
              : `Nothing was changed. ${sayMany(trouble.all.length, 'fault')} to mend in the table:`}
          </p>
          {trouble.all !== undefined && (
            <ol className="shop-faults">
              {trouble.all.map(({ place, sentence }) => (
                <li key={`${place} ${sentence}`}>{sentence}</li>
              ))}
            </ol>
          )}
          <div className="actions">
            <button type="button" className="button main" onClick={() => setTrouble(null)}>
              Close
            </button>
          </div>
        </ModalBox>
      )}
    </>
  );
}

/** `2 new lines were put on the list`; nothing where there are none. */
export const saidOfMany = (many: number, one: string, done: string, tense: Tense): readonly string[] =>
  many === 0 ? [] : [`${sayMany(many, one)} ${tense === 'was' ? (many === 1 ? 'was' : 'were') : 'would be'} ${done}`];

/** `3 say what is there already`. */
export const saidOfSame = (many: number): readonly string[] =>
  many === 0 ? [] : [`${many} ${many === 1 ? 'says' : 'say'} what is there already`];
