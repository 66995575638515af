import { hrefOf, type Screen } from '../route/route.ts';
import type { HelpPart, HelpSection } from './help.ts';
import { helpOf } from './helpOf.ts';
import { idOf } from './idOf.ts';
import { KeyTable } from './KeyTable.tsx';
import { parts } from './parts.ts';
import { SaidText } from './SaidText.tsx';
import { SectionText } from './SectionText.tsx';
import { helpName, keysOf } from './screenKeys.ts';
import { goWithinHelp } from './useHelp.ts';

/** What can be done on the screen behind help, and its keys: before all else help says. */
export function HelpHere({ screen }: { readonly screen: Screen }) {
  const at = helpOf(screen);
  const part = parts.find(({ id }) => id === at);
  const section = parts.flatMap(({ sections }) => sections).find(({ id }) => id === at);
  return (
    <section className="help-part help-here no-print" aria-labelledby={idOf('here')}>
      <h2 id={idOf('here')} tabIndex={-1}>
        On this screen: {helpName(screen)}
      </h2>
      <div className="help-here-pair">
        <div>
          <h3>Its keys</h3>
          <KeyTable groups={keysOf(screen)} />
        </div>
        {section !== undefined && <Done section={section} />}
        {part !== undefined && <Ways part={part} />}
      </div>
    </section>
  );
}

function Done({ section: { begins: _, ...section } }: { readonly section: HelpSection }) {
  return (
    <div className="help-section">
      <h3>What is done here: {section.head}</h3>
      <SectionText section={section} />
    </div>
  );
}

/** Where what is done here is many things, the ways to each. */
function Ways({ part: { head, lead, sections } }: { readonly part: HelpPart }) {
  return (
    <div className="help-section">
      <h3>What is done here: {head}</h3>
      {lead !== undefined && (
        <p>
          <SaidText said={lead} />
        </p>
      )}
      <ul>
        {sections.map(({ id, head: to }) => (
          <li key={id}>
            <a
              href={hrefOf({ screen: 'help', at: id })}
              onClick={(event) => {
                event.preventDefault();
                goWithinHelp(id);
              }}
            >
              {to}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}
