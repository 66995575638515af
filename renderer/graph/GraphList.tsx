import type { KeyboardEvent } from 'react';
import type { ConflictGraph, GraphNode } from './conflictGraph.ts';

interface Props {
  readonly graph: ConflictGraph;
  readonly lit: ReadonlySet<string>;
  readonly picked: string | null;
  /** Not all lines are here to be counted in. */
  readonly some: boolean;
  /** In how many of the lines that are here a node is. */
  count(node: string): number;
  onPick(node: string): void;
}

/** The graph in words: each slot with what hangs on it, each joint with what it holds together. Arrows move, Enter picks. */
export function GraphList({ graph, lit, picked, some, count, onPick }: Props) {
  const slots = graph.nodes.filter((node) => node.kind === 'slot' && count(node.id) > 0);
  const joints = graph.nodes.filter((node) => node.kind === 'joint');
  const on = (slot: GraphNode) =>
    graph.nodes.filter((node) => node.kind !== 'slot' && node.kind !== 'joint' && node.slots[0] === slot.slots[0]);
  const nameOf = (id: string) => graph.nodes.find((node) => node.id === id)?.label ?? id;
  const item = (node: GraphNode, words: string) => (
    <button
      type="button"
      className={lit.has(node.id) ? 'node-line is-lit' : 'node-line'}
      data-node={node.id}
      aria-pressed={picked === node.id}
      aria-label={`${words}, in ${count(node.id)} ${count(node.id) === 1 ? 'line' : 'lines'}${some ? ' of those shown' : ''}${lit.has(node.id) ? ', lit' : ''}`}
      onClick={() => onPick(node.id)}
    >
      <span className={`node-shape is-${node.kind}`} aria-hidden="true" />
      {words}
    </button>
  );
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a button of its own.
    <div className="graph-list" onKeyDown={walk}>
      <ul aria-label="The graph in words">
        {slots.map((slot) => (
          <li key={slot.id}>
            {item(slot, slot.words)}
            <ul>
              {on(slot).map((node) => (
                <li key={node.id}>{item(node, node.kind === 'rule' ? 'what the name asks' : node.words)}</li>
              ))}
            </ul>
          </li>
        ))}
        {joints.map((joint) => (
          <li key={joint.id}>{item(joint, `${joint.label}: ${joint.slots.map((slot) => nameOf(`slot:${slot}`)).join(' with ')}`)}</li>
        ))}
      </ul>
    </div>
  );
}

function walk(event: KeyboardEvent<HTMLElement>): void {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0) return;
  const stops = [...event.currentTarget.querySelectorAll<HTMLElement>('[data-node]')];
  const next = stops[stops.indexOf(event.target as HTMLElement) + step];
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
}
