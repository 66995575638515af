import { useState } from 'react';
import type { NameId, Sheet, Verdict } from '../../reasoner/index.ts';
import { WordAtTicket } from '../cases/WordAtTicket.tsx';
import { usePreference } from '../look/preference.ts';
import { NextCheck } from '../odds/NextCheck.tsx';
import type { OddsHeld } from '../odds/useOdds.ts';
import { nextSections, WhatNext } from '../odds/WhatNext.tsx';
import { Cautions } from './Cautions.tsx';
import { Findings } from './Findings.tsx';
import { Headline } from './Headline.tsx';
import { Names } from './Names.tsx';
import { PageSwitch, verdictPages } from './PageSwitch.tsx';
import { SlotsLeft } from './SlotsLeft.tsx';
import { Ticket } from './Ticket.tsx';
import { UnitConflicts } from './UnitConflicts.tsx';
import { WhyNot } from './WhyNot.tsx';
import { WorthNote } from './WorthNote.tsx';

const sections = [
  ['verdict-why', 'Why'],
  ['verdict-ticket', 'Ticket'],
  ['verdict-names', 'Names'],
  ['verdict-parts', 'Parts left'],
] as const;

interface Props {
  readonly verdict: Verdict;
  readonly odds: OddsHeld;
  readonly sheet: Sheet;
}

/** The honest name and the next check stay in sight; under them the verdict (why, what would change it, the ticket, all that was judged), or what to look at next. */
export function VerdictPages({ verdict, odds, sheet }: Props) {
  const [asked, setAsked] = useState<NameId | null>(null);
  const [kept, setPage] = usePreference('verdict page', verdictPages, 'verdict');
  // A planned build is chosen, not found: there is nothing to look at next.
  const found = sheet.kind === 'found';
  const page = found ? kept : 'verdict';
  const judged = (id: NameId | null) => verdict.names.find((one) => one.name.id === id) ?? null;
  // The name whose reasons are shown: one picked from the list, else the claimed one.
  const about = judged(asked) ?? judged(verdict.claim?.name ?? null);
  return (
    <>
      <Headline verdict={verdict} />
      {found && <NextCheck odds={odds} sheet={sheet} />}
      <div className="jump no-print">
        {found && <PageSwitch page={page} onPage={setPage} />}
        <nav aria-label={page === 'verdict' ? 'Parts of the verdict' : 'Parts of what next'}>
          <ul>
            {(page === 'verdict' ? sections : nextSections).map(([id, name]) => (
              <li key={id}>
                <button type="button" className="button plain" onClick={() => jumpTo(id)}>
                  {name}
                </button>
              </li>
            ))}
          </ul>
        </nav>
      </div>
      <div className="verdict-scroll" id="verdict-page" {...(found ? { role: 'tabpanel', 'aria-labelledby': `verdict-page-${page}` } : {})}>
        {page === 'next' ? (
          <WhatNext odds={odds} verdict={verdict} sheet={sheet} />
        ) : (
          <>
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
            <WordAtTicket sheet={sheet.id} />
            <Cautions cautions={verdict.cautions} />
            <Names verdict={verdict} about={about?.name.id ?? null} onAbout={setAsked} />
            <SlotsLeft verdict={verdict} />
            {found && <WorthNote verdict={verdict} />}
          </>
        )}
      </div>
    </>
  );
}

const jumpTo = (id: string): void => {
  const section = document.getElementById(id);
  section?.scrollIntoView({ block: 'start' });
  section?.focus({ preventScroll: true });
};
