import type { Plan, PlanAnswer, Sheet } from '../../reasoner/index.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useShop } from '../bridge/ShopContext.ts';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { Cautions } from '../verdict/Cautions.tsx';
import { Contradictions } from '../verdict/Contradictions.tsx';
import { BuildName } from './BuildName.tsx';
import { ChainTable } from './ChainTable.tsx';
import { CostBlock } from './CostBlock.tsx';
import { FitGraph } from './FitGraph.tsx';
import { JointTable } from './JointTable.tsx';
import { sayCost, sayHours } from './sayBuild.ts';
import { WarmTable } from './WarmTable.tsx';
import { WorkTable } from './WorkTable.tsx';

const sections = [
  ['joints', 'Joints'],
  ['work', 'Work'],
  ['warm', 'Cold and warm'],
  ['lengths', 'Lengths'],
  ['cost', 'Hours and cost'],
  ['name', 'Name'],
  ['graph', 'Graph'],
] as const;

/** What follows from the parts chosen. A trouble is shown where the answer stands; the answer before it stays readable below. */
export function PlanColumn({ asked, sheet }: { readonly asked: Asked<PlanAnswer>; readonly sheet: Sheet }) {
  const answer = latest(asked);
  return (
    <section className="verdict-column plan-column" aria-label="The plan" aria-busy={asked.state === 'waiting'} data-state={asked.state}>
      {asked.state === 'trouble' && (
        <TroubleNote lead="This build could not be judged." trouble={asked.trouble}>
          {answer !== null && <p className="small">Below is the plan before the last change.</p>}
        </TroubleNote>
      )}
      {answer === null && asked.state === 'waiting' && <p className="soft verdict-wait">Judging…</p>}
      {answer?.kind === 'contradiction' && <Contradictions answer={answer} sheet={sheet} />}
      {answer?.kind === 'plan' && <PlanPages plan={answer} />}
    </section>
  );
}

function PlanPages({ plan }: { readonly plan: Plan }) {
  const { money } = useShop().settings;
  const honest = plan.names.filter(({ name }) => plan.honest.includes(name.id));
  return (
    <>
      <header className="headline-block plan-headline">
        <h2 className="headline">
          {honest.map(({ name }) => name.text).join(' or ')}{' '}
          {plan.joints.length + plan.chains.length > 0 && <FitMark verdict={plan.verdict} />}
        </h2>
        <p className="plan-sentence">
          {plan.sentence}{' '}
          <span className="soft">
            {plan.works.length > 0 && `${sayHours(plan.cost.hours)} of work. `}
            {plan.cost.atLeast !== null && `Parts and work: ${sayCost(plan.cost, money)}.`}
          </span>
        </p>
        {plan.findings.map(({ observation, sentence }) => (
          <p key={observation} className="trouble small">
            {sentence}
          </p>
        ))}
      </header>
      <nav className="jump no-print" aria-label="Parts of the plan">
        <ul>
          {sections.map(([id, name]) => (
            <li key={id}>
              <button
                type="button"
                className="button plain"
                onClick={() => {
                  const section = document.getElementById(`plan-${id}`);
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
        <JointTable plan={plan} />
        <WorkTable plan={plan} />
        <WarmTable plan={plan} />
        <ChainTable plan={plan} />
        <CostBlock plan={plan} />
        <BuildName plan={plan} />
        <FitGraph plan={plan} />
        <Cautions cautions={plan.cautions} />
      </div>
    </>
  );
}
