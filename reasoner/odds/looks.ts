import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FactTable } from '../compile/fact-tables.ts';
import { type Plain, type Readings, readingsOf } from './readings.ts';

/** A reading rarer than this of a part is never of it. */
const unheardOf = 1e-30;

/** A feature's readings, and what gives them; these depend on the atlas alone. */
export interface Looks {
  readonly readings: Readings;
  /** The parts with each fact, fact after fact; last those that give blind readings: nobody knows it of them, or the atlas does not list them. */
  readonly parts: Runs;
  /** The last of these runs: one list for all features of the slot it is the same of. */
  readonly silent: Int32Array;
  /** The readings each fact gives, and how often, fact after fact; the blind give none of their own. */
  readonly gives: Runs;
}

export interface Runs {
  /** Where each run begins; one longer than the runs. */
  readonly from: Int32Array;
  readonly members: Int32Array;
  readonly shares: Float64Array;
}

const kept = new WeakMap<FactTable, Looks>();
/** By slot, the lists of parts that give blind readings of some feature. */
const silences = new WeakMap<CompiledSlot, Map<string, Int32Array>>();

const keptList = (slot: CompiledSlot, parts: Int32Array): Int32Array => {
  const own = silences.get(slot) ?? new Map<string, Int32Array>();
  silences.set(slot, own);
  const key = parts.join();
  const known = own.get(key) ?? parts;
  own.set(key, known);
  return known;
};

export const looksOf = (feature: Feature, slot: CompiledSlot): Looks => {
  const table = slot.factsOf(feature.id);
  const known = kept.get(table);
  if (known) return known;
  const readings = readingsOf(feature, table);
  const facts = table.distinct.length;
  const parts = runsOf(facts + 1, (give) => {
    table.of.forEach((fact, part) => {
      give(readings.plain[fact] === null ? facts : fact, part, 1);
    });
    give(facts, table.of.length, 1);
  });
  const gives = givesOf([...readings.plain, null]);
  const made = { readings, parts, silent: keptList(slot, parts.members.subarray(parts.from[facts])), gives };
  kept.set(table, made);
  return made;
};

type Give = (run: number, member: number, share: number) => void;

/** Members put in runs. `each` is gone through twice: counted, then kept. */
export const runsOf = (runs: number, each: (give: Give) => void): Runs => {
  const from = new Int32Array(runs + 1);
  each((run) => {
    from[run + 1] = (from[run + 1] as number) + 1;
  });
  for (let run = 0; run < runs; run += 1) from[run + 1] = (from[run + 1] as number) + (from[run] as number);
  const members = new Int32Array(from[runs] as number);
  const shares = new Float64Array(from[runs] as number);
  const next = from.slice();
  each((run, member, share) => {
    const at = next[run] as number;
    members[at] = member;
    shares[at] = share;
    next[run] = at + 1;
  });
  return { from, members, shares };
};

/** @param plain by fact; null: none of its own */
export const givesOf = (plain: readonly (Plain | null)[]): Runs => {
  const from = new Int32Array(plain.length + 1);
  const most = plain.reduce((sum, own) => sum + (own?.readings.length ?? 0), 0);
  const members = new Int32Array(most);
  const given = new Float64Array(most);
  let filled = 0;
  for (let fact = 0; fact < plain.length; fact += 1) {
    const own = plain[fact];
    for (let i = 0, end = own?.readings.length ?? 0; i < end; i += 1) {
      const share = own?.shares[i] as number;
      if (!(share > unheardOf)) continue;
      members[filled] = own?.readings[i] as number;
      given[filled] = share;
      filled += 1;
    }
    from[fact + 1] = filled;
  }
  return { from, members: members.subarray(0, filled), shares: given.subarray(0, filled) };
};
