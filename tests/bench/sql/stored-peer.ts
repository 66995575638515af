import type { CompiledAtlas } from '../../../reasoner/compile/compiled.ts';
import type { NameRule } from '../../../reasoner/compile/name-rule.ts';
import type { Feature, Observation, Rung, Sheet } from '../../../reasoner/index.ts';
import { markKey } from '../../../reasoner/plain/letters.ts';
import type { MemoryDatabase } from './memory-database.ts';
import { rungsOfModels, standing, statements, temporary } from './stored-statements.ts';
import { storedTables } from './stored-tables.ts';

type Value = string | number | null;
/** What of a fact `f` agrees with a reading, in SQL, and what is bound to it. */
type Agreeing = readonly [sql: string, values: readonly Value[]];

/**
 * The statuses of names by plain SQL over the tables the desk keeps the atlas in, with no table or index more: first the parts of each slot that agree with what was seen of it, or of
 * which nothing is known; then, of every model, which of its names some part it lists there, or one that took such a part's place, does not rule out; then which of them stand. Names of
 * models and their cores are so found; those that say only that the unit is one of several, and those with an open-ended list, are not put to it. It knows no joints, no work done on
 * parts, and says nothing of why. Marks are compared by letters and figures alone, which SQLite cannot: of those of a feature it is asked for each that there is.
 */
export class StoredPeer {
  readonly names: readonly NameRule[];
  readonly #database: MemoryDatabase;
  readonly #features: ReadonlyMap<string, { readonly n: number; readonly feature: Feature }>;
  readonly #numbers = new Map<string, number>();

  private constructor(atlas: CompiledAtlas, database: MemoryDatabase) {
    this.#database = database;
    this.#features = new Map(atlas.data.features.map((feature, n) => [feature.id, { n: n + 1, feature }]));
    const models = new Map(atlas.data.models.map(({ id }, n) => [id, n + 1]));
    this.names = atlas.names.filter(({ anyOf, open, name }) => anyOf === null && open.size === 0 && rungOf(name.rung) !== undefined);
    for (const [number, { name }] of this.names.entries())
      for (const model of name.models) this.#numbers.set(`${rungOf(name.rung)} ${models.get(model)}`, number);
  }

  static async of(atlas: CompiledAtlas): Promise<StoredPeer> {
    const database = await storedTables(atlas.data);
    await database.run(temporary);
    return new StoredPeer(atlas, database);
  }

  /** By number, the names that are not ruled out, and whether each stands. */
  async statuses(sheet: Sheet): Promise<ReadonlyMap<number, boolean>> {
    const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
    const slots = [...new Set([...seen.map(({ slot }) => slot), ...sheet.absent])];
    for (const sql of statements.before) await this.#database.kept(sql);
    for (const slot of slots) {
      if (!sheet.absent.includes(slot))
        await this.#agree(
          slot,
          seen.filter((each) => each.slot === slot),
        );
      await this.#database.kept(statements.seen, [slot]);
    }
    for (const sql of statements.narrow) await this.#database.kept(sql);
    const rows = await this.#database.kept<{ rung: string; model: number; stands: number }>(standing);
    return new Map(
      rows.flatMap(({ rung, model, stands }) => {
        const number = this.#numbers.get(`${rung} ${model}`);
        return number === undefined ? [] : [[number, stands === 1]];
      }),
    );
  }

  close(): Promise<void> {
    return this.#database.close();
  }

  /** Keeps the parts of a slot with which everything agrees that was seen of it. */
  async #agree(slot: string, seen: readonly Observation[]): Promise<void> {
    const [joins, wheres]: [string[], string[]] = [[], []];
    const [features, values]: [Value[], Value[]] = [[], []];
    for (const [i, one] of seen.entries()) {
      const { n, feature } = this.#features.get(one.feature) as { readonly n: number; readonly feature: Feature };
      const [agrees, bound] = await this.#agreeing(n, feature, one);
      joins.push(`left join facts f${i} on f${i}.part = p.n and f${i}.feature = ?`);
      wheres.push(`(f${i}.kind is null or f${i}.kind = 'not known' or ${agrees.replaceAll('f.', `f${i}.`)})`);
      features.push(n);
      values.push(...bound);
    }
    await this.#database.kept(
      `insert into live select p.n, p.slot from parts p ${joins.join(' ')} where p.slot = ? and ${wheres.join(' and ')}`,
      [...features, slot, ...values],
    );
  }

  async #agreeing(n: number, { wear }: Feature, { value, sure }: Observation): Promise<Agreeing> {
    switch (value.kind) {
      case 'measure': {
        const u = sure.kind === 'measured' ? sure.u : 0;
        const [below, above] = [wear?.below ?? 0, wear?.above ?? 0];
        return [
          'f.nominal + f.lower <= ? and f.nominal + f.upper >= ?',
          [value.value + 2 * u + below + rounding, value.value - 2 * u - above - rounding],
        ];
      }
      case 'count':
        return ['f.lower <= ? and f.upper >= ?', [value.to, value.from]];
      case 'presence':
        return ['f.present = ?', [Number(value.present)]];
      case 'choice':
        return ['exists (select 1 from json_each(f.any_of) where value = ?)', [value.option]];
      case 'mark': {
        const { text } = value;
        if (text === null) return ['f.blank = 1', []];
        const lists = await this.#database.kept<{ anyOf: string }>(statements.marks, [n]);
        const same = lists.filter(({ anyOf }) => (JSON.parse(anyOf) as string[]).some((mark) => markKey(mark) === markKey(text)));
        return ['f.any_of in (select value from json_each(?))', [JSON.stringify(same.map(({ anyOf }) => anyOf))]];
      }
    }
  }
}

/** Sums of decimal sizes are not exact in binary. */
const rounding = 1e-12;

const rungOf = (rung: Rung): string | undefined => (rung === 'pattern core' ? 'core' : rungsOfModels.find((one) => one === rung));
