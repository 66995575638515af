import { hrefOf } from '../route/route.ts';
import type { HelpSection } from './help.ts';
import { SaidText } from './SaidText.tsx';
import { readLabel } from './said.ts';
import { goWithinHelp } from './useHelp.ts';

/** What stands under a heading of help: where it begins, its steps and notes. */
export function SectionText({ section: { id, lead, begins, steps, notes } }: { readonly section: HelpSection }) {
  return (
    <>
      {lead !== undefined && (
        <p>
          <SaidText said={lead} />
        </p>
      )}
      {begins !== undefined && (
        <p className="help-begins">
          Begins at {/* Back from there leads to this heading again. */}
          <a href={hrefOf(begins.at)} onClick={() => goWithinHelp(id)}>
            {readLabel(begins.is)}
          </a>
        </p>
      )}
      {steps !== undefined && (
        <ol>
          {steps.map((said, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: steps are a list that never changes.
            <li key={index}>
              <SaidText said={said} />
            </li>
          ))}
        </ol>
      )}
      {notes !== undefined && (
        <ul>
          {notes.map((said, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: as above.
            <li key={index}>
              <SaidText said={said} />
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
