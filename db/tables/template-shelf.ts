import { asc, eq } from 'drizzle-orm';
import type { Door } from '../driver/door.ts';
import { build, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { Matching } from './column-use.ts';

/** How a kind of table is matched, kept under a name: what its columns are, by their headings. */
export interface TableTemplate {
  readonly name: string;
  /** Of each column of the matching its heading. */
  readonly headings: readonly string[];
  readonly matching: Matching;
}

/** Matchings kept for next time. */
export interface TemplateShelf {
  list(): Promise<Outcome<readonly TableTemplate[]>>;
  /** New or not: one of that name is written over. */
  keep(template: TableTemplate): Promise<Outcome<null>>;
  /** Troubles: `not-found`. */
  remove(name: string): Promise<Outcome<null>>;
}

export const templateShelf = ({ read, write, now }: Door): TemplateShelf => ({
  list: () =>
    read(({ orm }) =>
      orm
        .select({ name: t.tableTemplates.name, headings: t.tableTemplates.headings, matching: t.tableTemplates.matching })
        .from(t.tableTemplates)
        .orderBy(asc(t.tableTemplates.name)),
    ),
  keep: ({ name, headings, matching }) => {
    const savedAt = now().toISOString();
    return write(async () => ({
      batch: {
        guards: [],
        statements: [
          statementOf(
            build
              .insert(t.tableTemplates)
              .values({ name, headings, matching, savedAt })
              .onConflictDoUpdate({ target: t.tableTemplates.name, set: { headings, matching, savedAt } }),
          ),
        ],
      },
      value: null,
    }));
  },
  remove: (name) =>
    write(async ({ orm }) => {
      const [held] = await orm.select({ name: t.tableTemplates.name }).from(t.tableTemplates).where(eq(t.tableTemplates.name, name));
      if (held === undefined)
        throw new TroubleError(trouble('not-found', 'name', `No way of reading a table is kept under the name “${name}”.`));
      return {
        batch: { guards: [], statements: [statementOf(build.delete(t.tableTemplates).where(eq(t.tableTemplates.name, name)))] },
        value: null,
      };
    }),
});
