import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FactTable } from '../compile/fact-tables.ts';
import { type Plain, type Readings, readingsOf } from './readings.ts';

/** A reading rarer than this of a part is never of it. */
const unheardOf = 1e-30;

/** A feature's readings, and what gives them; these depend on the atlas alone. */
export interface Looks {
  readonly readings: Readings;
  /** By part, the unlisted one last: the run it is of. Parts with one fact are one run; the last are those that give blind readings: nobody knows it of them, or the atlas does not list them. */
  readonly runOf: Int32Array;
  readonly runs: number;
  /** The parts of the last run: one list for all features of the slot it is the same of. */
  readonly silent: Int32Array;
  /** The readings each run gives, and how often; the last gives none of its own. */
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
  const runOf = new Int32Array(table.of.length + 1).fill(facts);
  table.of.forEach((fact, part) => {
    if (readings.plain[fact] !== null) runOf[part] = fact;
  });
  const silent = Int32Array.from(runOf.keys()).filter((part) => runOf[part] === facts);
  const made = { readings, runOf, runs: facts + 1, silent: keptList(slot, silent), gives: givesOf([...readings.plain, null]) };
  kept.set(table, made);
  return made;
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
