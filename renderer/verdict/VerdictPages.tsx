import { useState } from 'react';
import type { NameId, Sheet, Verdict } from '../../reasoner/index.ts';
import { Cautions } from './Cautions.tsx';
import { Findings } from './Findings.tsx';
import { Headline } from './Headline.tsx';
import { Names } from './Names.tsx';
import { SlotsLeft } from './SlotsLeft.tsx';
import { Ticket } from './Ticket.tsx';
import { UnitConflicts } from './UnitConflicts.tsx';
import { WhyNot } from './WhyNot.tsx';

const sections = [
  ['why', 'Why'],
  ['ticket', 'Ticket'],
  ['names', 'Names'],
  ['parts', 'Parts left'],
] as const;

/** The verdict as one page: the honest name first, then why, what would change it, the words for the ticket, and all that was judged. */
export function VerdictPages({ verdict, sheet }: { readonly verdict: Verdict; readonly sheet: Sheet }) {
  const [asked, setAsked] = useState<NameId | null>(null);
  const judged = (id: NameId | null) => verdict.names.find((one) => one.name.id === id) ?? null;
  // The name whose reasons are shown: one picked from the list, else the claimed one.
  const about = judged(asked) ?? judged(verdict.claim?.name ?? null);
  return (
    <>
      <Headline verdict={verdict} />
      <nav className="jump no-print" aria-label="Parts of the verdict">
        <ul>
          {sections.map(([id, name]) => (
            <li key={id}>
              <button
                type="button"
                className="button plain"
                onClick={() => {
                  const section = document.getElementById(`verdict-${id}`);
                  section?.scrollIntoView({ block: 'start' });
                  section?.focus({ preventScroll: true });
                }}
              >
                {name}
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <div className="verdict-scroll">
        <WhyNot
          verdict={verdict}
          sheet={sheet}
          about={about}
          picked={asked !== null && about?.name.id === asked}
          onBack={() => setAsked(null)}
        />
        <UnitConflicts verdict={verdict} sheet={sheet} />
        <Findings verdict={verdict} sheet={sheet} />
        <Ticket verdict={verdict} sheet={sheet} onAbout={setAsked} />
        <Cautions cautions={verdict.cautions} />
        <Names verdict={verdict} about={about?.name.id ?? null} onAbout={setAsked} />
        <SlotsLeft verdict={verdict} />
      </div>
    </>
  );
}
