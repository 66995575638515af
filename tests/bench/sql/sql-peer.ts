import type { CompiledAtlas } from '../../../reasoner/compile/compiled.ts';
import { demandsCore, type NameRule } from '../../../reasoner/compile/name-rule.ts';
import type { FeatureId, Observation, Sheet, SlotId } from '../../../reasoner/index.ts';
import { LimitsOfFacts } from '../limits-of-facts.ts';
import { MemoryDatabase } from './memory-database.ts';

/** A feature by number; how wide the widest of its limits are, and whether of some part it is not known. */
interface AskedOf {
  readonly number: number;
  widest: number;
  silent: boolean;
}

/**
 * The statuses of names by plain SQL: what each part can be read as in rows of limits, and each name as one row with the set of parts it asks for in every slot, all of it
 * indexed and analysed. It knows no joints, no work done on parts and no open-ended lists, and says nothing of why: names with such a list, and names that say only that
 * the unit is one of several, are not put to it.
 */
export class SqlPeer {
  readonly #database = new MemoryDatabase();
  readonly #atlas: CompiledAtlas;
  /** The names it was given; a name's number is its place. */
  readonly names: readonly NameRule[];
  readonly #limits = new LimitsOfFacts();
  readonly #features: ReadonlyMap<FeatureId, AskedOf>;

  constructor(atlas: CompiledAtlas) {
    this.#atlas = atlas;
    this.names = atlas.names.filter(({ anyOf, open }) => anyOf === null && open.size === 0);
    this.#features = new Map(atlas.data.features.map(({ id }, number) => [id, { number, widest: 0, silent: false }]));
  }

  static async of(atlas: CompiledAtlas): Promise<SqlPeer> {
    const peer = new SqlPeer(atlas);
    await peer.#load();
    return peer;
  }

  /** By number, the names that are not ruled out, and whether each stands. */
  async statuses(sheet: Sheet): Promise<ReadonlyMap<number, boolean>> {
    const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
    const slots = [...new Set([...seen.map(({ slot }) => slot), ...sheet.absent])];
    await this.#database.run('delete from live; delete from met;');
    for (const slot of slots) {
      if (sheet.absent.includes(slot)) continue;
      const agreeing = seen.filter((each) => each.slot === slot).map((each) => this.#agreeing(each));
      await this.#database.run(`insert into live select ${this.#slotNumber(slot)}, part from (${agreeing.join(' intersect ')})`);
    }
    await this.#database.run(`insert into met select m.asked, count(*) = n.parts from live l join member m on m.part = l.part
      join (select slot, count(*) parts from live group by slot) n on n.slot = l.slot group by m.asked`);
    const kept = slots.map((slot) => {
      const column = `s${this.#slotNumber(slot)}`;
      return `(${column} is null or ${column} in (select asked from met))`;
    });
    const settled = this.#atlas.slots.map(({ data, number }) => {
      const whole = slots.includes(data.id) ? 'select asked from met where whole' : 'select asked from everything';
      return `(s${number} is null or s${number} in (${whole}))`;
    });
    const rows = await this.#database.all<{ id: number; stands: number }>(
      `select id, may_stand and ${settled.join(' and ')} as stands from name${kept.length > 0 ? ` where ${kept.join(' and ')}` : ''}`,
    );
    return new Map(rows.map(({ id, stands }) => [id, stands === 1]));
  }

  close(): Promise<void> {
    return this.#database.close();
  }

  #slotNumber(slot: SlotId): number {
    return this.#atlas.slotNumber.get(slot) as number;
  }

  /** The parts that agree with what was seen, or of which the atlas is silent. */
  #agreeing(one: Observation): string {
    const { number, widest, silent } = this.#features.get(one.feature) as AskedOf;
    const [low, high] = this.#limits.ofReading(one);
    const known = `select part from fact where feature = ${number} and low between ${low - widest - 1e-9} and ${high} and high >= ${low}`;
    return silent ? `select part from (${known} union all select part from silent where feature = ${number})` : known;
  }

  async #load(): Promise<void> {
    const { slots, data } = this.#atlas;
    const columns = slots.map(({ number }) => `s${number}`);
    await this.#database.run(`
      create table fact (feature integer, low real, high real, part integer, primary key (feature, low, part)) without rowid;
      create table silent (feature integer, part integer, primary key (feature, part)) without rowid;
      create table member (part integer, asked integer, primary key (part, asked)) without rowid;
      create table everything (asked integer primary key);
      create table name (id integer primary key, may_stand integer, ${columns.map((column) => `${column} integer`).join(', ')});
      create temp table live (slot integer, part integer, primary key (slot, part)) without rowid;
      create temp table met (asked integer primary key, whole integer);`);
    const first: number[] = [];
    let parts = 0;
    const [facts, silent]: [number[][], number[][]] = [[], []];
    for (const slot of slots) {
      first.push(parts);
      const features = data.features.filter((feature) => feature.slot === slot.data.id);
      for (const part of slot.parts) {
        for (const feature of features) {
          const asked = this.#features.get(feature.id) as AskedOf;
          const ranges = this.#limits.ofFact(feature, part.facts[feature.id]);
          asked.silent ||= ranges === null;
          if (ranges === null) silent.push([asked.number, parts]);
          else
            for (const [low, high] of ranges) {
              asked.widest = Math.max(asked.widest, high - low);
              facts.push([asked.number, low, high, parts]);
            }
        }
        parts += 1;
      }
    }
    await this.#database.fill('fact', 4, facts);
    await this.#database.fill('silent', 2, silent);
    const sets = new Map<string, number>();
    const [member, everything]: [number[][], number[][]] = [[], []];
    const askedOf = (demand: ReadonlySet<number>, slot: number): number => {
      const key = `${slot}: ${[...demand].sort((a, b) => a - b).join(' ')}`;
      const known = sets.get(key);
      if (known !== undefined) return known;
      const asked = sets.size;
      sets.set(key, asked);
      for (const part of demand) member.push([(first[slot] as number) + part, asked]);
      if (demand.size === slots[slot]?.parts.length) everything.push([asked]);
      return asked;
    };
    const names = this.names.map((rule, id) => [
      id,
      Number(demandsCore(this.#atlas, rule) || rule.name.rung === 'parts'),
      ...rule.demands.map((demand, slot) => (demand === null ? null : askedOf(demand, slot))),
    ]);
    await this.#database.fill('member', 2, member);
    await this.#database.fill('everything', 1, everything);
    await this.#database.fill('name', 2 + columns.length, names);
    await this.#database.run(`${columns.map((column) => `create index name_${column} on name (${column});`).join(' ')} analyze;`);
  }
}
