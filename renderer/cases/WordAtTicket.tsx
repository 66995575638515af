import type { SheetId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { hrefOf } from '../route/route.ts';
import { WordRead } from './WordRead.tsx';

/** Below the program's words for the ticket, and apart from them: what was decided of this unit beside the verdict. Nothing where nothing was. */
export function WordAtTicket({ sheet }: { readonly sheet: SheetId }) {
  const { unit } = useBench();
  const word = latest(useAsk('cases.word', unit.kept?.sheet.id === sheet ? { sheet } : null, 0, unit.saving));
  if (word === null) return null;
  return (
    <section className="block" aria-label="Decided beside the verdict">
      <WordRead word={word} />
      <p className="small no-print">
        <a href={hrefOf({ screen: 'case', sheet })}>It stands in the case file</a>
      </p>
    </section>
  );
}
