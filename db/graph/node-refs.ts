import type { NodeRef } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { TroubleError, trouble } from '../trouble.ts';

export type NodeKind = NodeRef['kind'];

const tables = { maker: 'makers', family: 'families', generation: 'generations', model: 'models', part: 'parts' } as const satisfies Record<
  NodeKind,
  string
>;

export const refOf = (kind: NodeKind, row: { readonly id: string; readonly name: string }): NodeRef =>
  ({ kind, id: row.id, name: row.name }) as NodeRef;

/** Names for ids of one kind. An id the atlas does not have is left out. */
export const refsOf = async (reader: Reader, kind: NodeKind, ids: readonly string[]): Promise<ReadonlyMap<string, NodeRef>> => {
  const rows = await reader.all<{ id: string; name: string }>(
    `select id, name from ${tables[kind]} where id in (select value from json_each(?))`,
    [JSON.stringify(ids)],
  );
  return new Map(rows.map((row) => [row.id, refOf(kind, row)]));
};

/** Throws the trouble `not-found`. */
export const noSuchNode = (kind: NodeKind, id: string): never => {
  throw new TroubleError(trouble('not-found', `${kind} ${id}`, `The atlas has no ${kind} "${id}".`));
};

/** Rows of `id` and `name` as references, in their order. */
export const refRows = async (reader: Reader, kind: NodeKind, sql: string, params: readonly unknown[]): Promise<NodeRef[]> =>
  (await reader.all<{ id: string; name: string }>(sql, params)).map((row) => refOf(kind, row));
