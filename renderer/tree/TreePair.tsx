import type { RelatedAnswer } from '../../db/answers.ts';
import type { SubjectRef } from '../../reasoner/index.ts';
import { NodeLink } from '../atlas/NodeLink.tsx';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { TermText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { type Pick, type Picks, samePick } from '../route/picks.ts';
import { hrefOf } from '../route/route.ts';
import { sayNodeYears } from './TreeOutline.tsx';
import type { TreeNode } from './treeNode.ts';

interface Props {
  readonly picks: Picks;
  readonly related: Asked<RelatedAnswer>;
  nodeOf(pick: Pick): TreeNode | null;
  nameOf(pick: Pick): string;
  onLetGo(pick: Pick): void;
}

/** The nodes that are picked, and how the two are related: the shortest chain of reasons, each a sentence. */
export function TreePair({ picks, related, nodeOf, nameOf, onLetGo }: Props) {
  const [first, second] = picks;
  return (
    <section className="tree-pair" aria-label="Picked">
      {first === undefined && (
        <p className="soft small">
          Pick two, in the drawing or with Enter in the outline, to read how they are related and what tells them apart.
        </p>
      )}
      {picks.map((pick, index) => (
        <Picked
          key={`${pick.kind} ${pick.id}`}
          pick={pick}
          word={index === 0 ? 'first' : 'second'}
          node={nodeOf(pick)}
          name={nameOf(pick)}
          onLetGo={() => onLetGo(pick)}
        />
      ))}
      {first !== undefined && second === undefined && <p className="soft small">Pick another to hold beside it.</p>}
      {first !== undefined && second !== undefined && (
        <>
          <h2 className="head">How they are related</h2>
          <Chain related={related} picks={[first, second]} />
          <TellApart picks={[first, second]} />
        </>
      )}
    </section>
  );
}

function Picked(props: {
  readonly pick: Pick;
  readonly word: string;
  readonly node: TreeNode | null;
  readonly name: string;
  onLetGo(): void;
}) {
  const { pick, node, name } = props;
  const years = node === null ? '' : sayNodeYears(node);
  return (
    <div className="tree-picked">
      <p>
        <span className="outline-order">{props.word}</span> <b>{<NodeLink node={{ ...pick, name }} />}</b>
        <span className="soft small">
          {' '}
          <TermText text={pick.kind} />
          {years !== '' && `, ${years}`}
        </span>
      </p>
      <button type="button" className="button bare" aria-label={`Let go of ${name}`} onClick={props.onLetGo}>
        ✕
      </button>
      {node !== null && node.lines !== '' && <p className="small soft">{node.lines}</p>}
    </div>
  );
}

/** Families and models can be told apart, and parts from parts; a maker or a generation is no one thing to hold in the hand. */
function TellApart({ picks }: { readonly picks: readonly [Pick, Pick] }) {
  const subjects = picks.flatMap((pick): SubjectRef[] =>
    pick.kind === 'family' || pick.kind === 'model' || pick.kind === 'part' ? [pick] : [],
  );
  if (subjects.length < 2 || subjects.filter(({ kind }) => kind === 'part').length === 1) return null;
  return (
    <p className="tree-apart">
      <a href={hrefOf({ screen: 'apart', subjects })}>What tells them apart</a>
    </p>
  );
}

function Chain({ related, picks }: { readonly related: Asked<RelatedAnswer>; readonly picks: readonly [Pick, Pick] }) {
  const answer = latest(related);
  if (related.state === 'trouble') return <TroubleNote lead="The chain could not be followed." trouble={related.trouble} />;
  if (answer === null || related.state !== 'answered') return <p className="soft small">Following the lines…</p>;
  if (answer.steps === null) return <p className="small">The atlas knows nothing that joins these two.</p>;
  if (answer.steps.length === 0 || samePick(picks[0], picks[1])) return <p className="small">They are the same.</p>;
  return (
    <ol className="steps small" aria-label="Shortest chain of reasons">
      {answer.steps.map((step) => (
        <li key={`${step.from.kind} ${step.from.id} ${step.to.kind} ${step.to.id}`}>
          <NodeLink node={step.from} /> <span className="how">{step.how}</span> <NodeLink node={step.to} />
        </li>
      ))}
    </ol>
  );
}
