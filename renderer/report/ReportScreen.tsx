import './report.css';
import { useMemo, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { useBench } from '../bench/BenchContext.ts';
import { fileNameOf } from '../bench/fileNameOf.ts';
import { bytesOf } from '../bridge/base64.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { giveBytes } from '../look/giveFile.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { ReportPage } from './ReportPage.tsx';

type Saving =
  | { readonly state: 'no' }
  | { readonly state: 'making' }
  | { readonly state: 'made'; readonly name: string }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

/** The report for the customer on the unit on the bench: read, printed, or saved as a PDF. All three are one document. */
export function ReportScreen() {
  const { sheet, unit } = useBench();
  const [story, setStory] = useState(false);
  const told = useMemo(() => ({ ...sheet, observations: sheet.observations.map(({ note: _, ...observation }) => observation) }), [sheet]);
  const asked = useAsk('report.of', { sheet: told, story }, 70);
  const report = latest(asked);
  const [saving, setSaving] = useState<Saving>({ state: 'no' });

  const save = async () => {
    setSaving({ state: 'making' });
    const reply = await desk.ask('report.pdf', { sheet: told, story });
    if (!reply.ok) return setSaving({ state: 'trouble', trouble: reply.trouble });
    const name = fileNameOf(sheet, 'pdf', unit.kept?.number ?? null);
    giveBytes(name, bytesOf(reply.value.data), 'application/pdf');
    setSaving({ state: 'made', name });
  };

  return (
    <main className="report-screen">
      <div className="report-actions no-print">
        <a href={hrefOf({ screen: 'unit' })}>Back to the unit</a>
        <span role="status" className="report-said soft">
          {saving.state === 'making' ? 'Making the PDF…' : saving.state === 'made' ? `Written: ${saving.name}.` : ''}
        </span>
        <button type="button" className="button" disabled={report === null} onClick={() => window.print()}>
          Print the report
        </button>
        <button type="button" className="button main" disabled={report === null || saving.state === 'making'} onClick={() => void save()}>
          Save as PDF
        </button>
      </div>
      {sheet.story.trim() !== '' && (
        <label className="tick report-story no-print">
          <input type="checkbox" checked={story} onChange={(event) => setStory(event.target.checked)} /> Print the story too
          <span className="small soft">It is the shop’s private note and is left out unless you tick this.</span>
        </label>
      )}
      {saving.state === 'trouble' && <TroubleNote lead="No PDF was made." trouble={saving.trouble} />}
      {asked.state === 'trouble' && <TroubleNote lead="No report can be made of this sheet." trouble={asked.trouble} />}
      {report === null && asked.state === 'waiting' && <p className="soft">Writing the report…</p>}
      {report !== null && asked.state !== 'trouble' && <ReportPage report={report} state={asked.state} />}
    </main>
  );
}
