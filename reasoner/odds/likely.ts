/** The targets as looks are weighed: a likely one has a column of its own, the least likely share the last. */
export interface Likely {
  /** By target, its column. */
  readonly columnOf: Int32Array;
  /** By column, its chance. */
  readonly chances: Float64Array;
  /** The column they share; −1 where every target has its own. */
  readonly rest: number;
  /** How uncertain it is which of those that share a column it is, once it is one of them, nats. */
  readonly within: number;
}

/**
 * As many of the least likely share a column as do not bring more than `most` bits of the uncertainty with them: P·H(target | one of them), P their chance together. What a look tells of a target is what it tells of the column,
 * and of the target where the column is the last: I(target; read) = I(column; read) + I(target; read | column), and that is no less than nothing and no more than P·H. Targets as likely as each other share it or do not together.
 */
export const likelyOf = (targets: Float64Array, most: number): Likely => {
  const least = most > 0 ? firstApart(targets, most * Math.LN2) : 0;
  const columnOf = new Int32Array(targets.length);
  const chances = new Float64Array(targets.length + 1);
  let columns = 0;
  let together = 0;
  let entropic = 0;
  for (let target = 0; target < targets.length; target += 1) {
    const chance = targets[target] as number;
    if (chance >= least) {
      columnOf[target] = columns;
      chances[columns] = chance;
      columns += 1;
    } else {
      columnOf[target] = -1;
      together += chance;
      if (chance > 0) entropic += chance * Math.log(chance);
    }
  }
  if (columns === targets.length) return { columnOf, chances: chances.slice(0, columns), rest: -1, within: 0 };
  for (let target = 0; target < columnOf.length; target += 1) if (columnOf[target] === -1) columnOf[target] = columns;
  chances[columns] = together;
  const within = together > 0 ? Math.max(0, Math.log(together) - entropic / together) : 0;
  return { columnOf, chances: chances.slice(0, columns + 1), rest: columns, within };
};

/** The least chance that has a column of its own. @param most nats */
const firstApart = (targets: Float64Array, most: number): number => {
  const ascending = targets.toSorted();
  let together = 0;
  let entropic = 0;
  for (let i = 0; i < ascending.length; i += 1) {
    const chance = ascending[i] as number;
    if (chance === 0) continue;
    together += chance;
    entropic += chance * Math.log(chance);
    // Σ p·log(P/p)
    if (together * Math.log(together) - entropic > most) return chance;
  }
  return Number.POSITIVE_INFINITY;
};
