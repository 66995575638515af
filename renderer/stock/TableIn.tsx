import { useState } from 'react';
import type { StockTable } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { list } from '../../reasoner/plain/text.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { ModalBox } from '../look/ModalBox.tsx';
import { sayMany } from '../values/sayMany.ts';

interface Looked {
  readonly text: string;
  readonly file: string;
  readonly table: StockTable;
}

/** Reads a table of stock: says first what it would do, or every fault in it. */
export function TableIn({ onTaken }: { onTaken(said: string): void }) {
  const [looked, setLooked] = useState<Looked | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const look = async (picked: File): Promise<void> => {
    const asked = { text: await picked.text(), file: picked.name };
    const reply = await desk.ask('stock.lookAtTable', asked);
    if (reply.ok) setLooked({ ...asked, table: reply.value });
    else setTrouble(reply.trouble);
  };
  const take = async ({ text, file }: Looked): Promise<void> => {
    setLooked(null);
    const reply = await desk.ask('stock.takeInTable', { text, file, who: whoLooks() });
    if (reply.ok) onTaken(`Taken in from ${file}: ${sayTable(reply.value, 'was')}.`);
    else setTrouble(reply.trouble);
  };
  return (
    <>
      <FileChooser
        label="Table of stock"
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
              : `By it ${sayTable(looked.table, 'would be')}. Lines it leaves out stay as they are.`}
          </p>
        </AskDialog>
      )}
      {trouble !== null && (
        <ModalBox title="The table was not taken in" className="stock-dialog" onLeave={() => setTrouble(null)}>
          <p>
            {trouble.all === undefined
              ? trouble.sentence
              : `Nothing was changed. ${sayMany(trouble.all.length, 'fault')} to mend in the table:`}
          </p>
          {trouble.all !== undefined && (
            <ol className="stock-faults">
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

const changes = ({ fresh, changed }: StockTable): number => fresh + changed;

const sayTable = ({ fresh, changed, same }: StockTable, tense: 'was' | 'would be'): string => {
  const said = [
    ...(fresh === 0
      ? []
      : [`${sayMany(fresh, 'new line')} ${tense === 'was' ? (fresh === 1 ? 'was' : 'were') : 'would be'} put on the list`]),
    ...(changed === 0 ? [] : [`${sayMany(changed, 'line')} ${tense === 'was' ? (changed === 1 ? 'was' : 'were') : 'would be'} changed`]),
    ...(same === 0 ? [] : [`${same} ${same === 1 ? 'says' : 'say'} what is there already`]),
  ];
  return list(said);
};
