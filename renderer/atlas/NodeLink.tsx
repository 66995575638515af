import type { NodeRef } from '../../db/answers.ts';
import type { SubjectRef } from '../../reasoner/index.ts';
import { hrefOf, type Route } from '../route/route.ts';

/** The page of a node; null for a generation, which has none of its own. */
export const pageOf = (node: NodeRef): Route | null => {
  switch (node.kind) {
    case 'generation':
      return null;
    case 'maker':
      return { screen: 'atlas', page: { kind: 'maker', id: node.id } };
    case 'family':
      return { screen: 'atlas', page: { kind: 'family', id: node.id, beside: null } };
    case 'model':
      return { screen: 'atlas', page: { kind: 'model', id: node.id } };
    case 'part':
      return { screen: 'atlas', page: { kind: 'part', id: node.id } };
  }
};

/** A node of the atlas by its name, leading to its page. */
export function NodeLink({ node }: { readonly node: NodeRef }) {
  const page = pageOf(node);
  return page === null ? <span>{node.name}</span> : <a href={hrefOf(page)}>{node.name}</a>;
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
