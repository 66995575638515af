/**
 * Records of many keys, most of them with the same keys as others before. Grown key by key, such an object is made over several times and is
 * larger in the end; here the first of its kind is copied, and the copy filled in.
 */
export class Records<K extends string, V> {
  readonly #root: Step<K, V> = { after: new Map(), whole: null };

  /** A record of the first so many keys, in their order, each with its value. */
  of(keys: readonly K[], values: readonly V[], length: number): Record<K, V> {
    let step = this.#root;
    for (let at = 0; at < length; at += 1) step = next(step, keys[at] as K);
    const { whole } = step;
    const record = (whole === null ? {} : { ...whole }) as Record<K, V>;
    for (let at = 0; at < length; at += 1) record[keys[at] as K] = values[at] as V;
    step.whole ??= record;
    return record;
  }
}

interface Step<K, V> {
  readonly after: Map<K, Step<K, V>>;
  whole: Record<string, V> | null;
}

const next = <K extends string, V>({ after }: Step<K, V>, key: K): Step<K, V> => {
  const known = after.get(key);
  if (known !== undefined) return known;
  const made: Step<K, V> = { after: new Map(), whole: null };
  after.set(key, made);
  return made;
};
