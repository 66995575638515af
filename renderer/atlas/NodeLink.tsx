import type { NodeRef } from '../../db/answers.ts';
import type { SubjectRef } from '../../reasoner/index.ts';
import { hrefOf } from '../route/route.ts';

/** A node of the atlas by its name, leading to its page. A generation has no page of its own. */
export function NodeLink({ node }: { readonly node: NodeRef }) {
  switch (node.kind) {
    case 'generation':
      return <span>{node.name}</span>;
    case 'maker':
      return <a href={hrefOf({ screen: 'atlas', page: { kind: 'maker', id: node.id } })}>{node.name}</a>;
    case 'family':
      return <a href={hrefOf({ screen: 'atlas', page: { kind: 'family', id: node.id, beside: null } })}>{node.name}</a>;
    case 'model':
      return <a href={hrefOf({ screen: 'atlas', page: { kind: 'model', id: node.id } })}>{node.name}</a>;
    case 'part':
      return <a href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: node.id } })}>{node.name}</a>;
  }
}

/** Leads to the form an entry is edited in. */
export function EditLink({ list, id }: { readonly list: string; readonly id: string }) {
  return (
    <span className="no-print">
      {' · '}
      <a href={hrefOf({ screen: 'edit', place: { at: 'entry', list, id } })}>Edit</a>
      {' · '}
      <a href={hrefOf({ screen: 'history', of: { list, id } })}>History</a>
    </span>
  );
}

/** Leads to telling these apart from others. */
export function ApartLink({ subjects, children }: { readonly subjects: readonly SubjectRef[]; readonly children: string }) {
  return (
    <p className="apart-link no-print">
      <a href={hrefOf({ screen: 'apart', subjects })}>{children}</a>
    </p>
  );
}

/** Several nodes in one line; says so when there are none. */
export function NodeLinks({ nodes, none }: { readonly nodes: readonly NodeRef[]; readonly none?: string }) {
  if (nodes.length === 0) return <span className="soft">{none ?? 'none'}</span>;
  return (
    <>
      {nodes.map((node, index) => (
        <span key={`${node.kind}-${node.id}`}>
          {index > 0 && ', '}
          <NodeLink node={node} />
        </span>
      ))}
    </>
  );
}
