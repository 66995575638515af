import type { Outcome, Store } from '../../db/index.ts';
import type { Atlas, CasesWould, CaseWould, Told } from '../../reasoner/index.ts';
import { well } from '../bridge/reply.ts';
import { bothAtlases, casesJudged } from '../desk/cases-would.ts';
import { KeptAtlas } from '../desk/kept-atlas.ts';
import type { Setting } from './command.ts';
import type { Terminal } from './terminal.ts';

/** Every saved case judged by the atlas as it is and as a change would leave it; null where the change has faults. Asked to stop, it stops where it is. */
export const judgeCases = async (
  store: Store,
  after: () => Promise<Outcome<Atlas | null>>,
  { listenForStop = () => () => false }: Setting,
): Promise<Outcome<CasesWould | null>> => {
  const both = await bothAtlases(store, new KeptAtlas(store), after);
  if (!both.ok) return both;
  if (both.value === null) return well(null);
  const judged = await casesJudged(store, both.value);
  if (!judged.ok) return judged;
  const { run } = judged.value;
  const stopAsked = listenForStop();
  let step = run.next();
  while (!step.done) {
    await new Promise((turn) => setImmediate(turn));
    step = run.next(stopAsked());
  }
  return well(step.value);
};

/** The same for people: a case that would be judged otherwise in three lines. */
export const sayCases = ({ cases, same, neither, judged, of, complete }: CasesWould, terminal: Terminal): void => {
  for (const one of cases) {
    terminal.out(`${[one.number, one.how, one.title].map((cell) => cell.replace(/\s+/g, ' ')).join('\t')}\n`);
    terminal.out(`  is told: ${'is' in one ? toldText(one.is) : 'it cannot be judged'}\n`);
    terminal.out(`  would be told: ${'would' in one ? toldText(one.would) : 'it could not be judged'}\n`);
    for (const sentence of reasonsOf(one)) terminal.out(`  - ${sentence}\n`);
  }
  terminal.err(
    `· ${cases.length} of ${judged} cases would be judged otherwise, ${same} the same${neither === 0 ? '' : `; ${neither} cannot be judged, now or then`}${complete ? '' : `; stopped before all ${of} were judged`}`,
  );
};

const reasonsOf = (one: CaseWould): readonly string[] =>
  one.how === 'told otherwise'
    ? one.slots.map(({ name, gone, come }) =>
        [
          `${name}:`,
          ...(gone.length === 0 ? [] : [`no longer ${gone.join(', ')};`]),
          ...(come.length === 0 ? [] : [`then also ${come.join(', ')};`]),
        ]
          .join(' ')
          .replace(/[:;]$/, ''),
      )
    : one.faults;

/** What a case is told, in one line. */
export const toldText = ({ contradiction, honest, claim }: Told): string =>
  contradiction ? 'entries contradict each other' : `${honest.join(' or ')}${claim === null ? '' : `; “${claim.text}” ${claim.status}`}`;
