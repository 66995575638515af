/** What was made last, kept so that asking for it again makes nothing. A making that throws keeps nothing. */
export class LastFew<Key, Value> {
  /** The one used longest ago first. */
  #kept: readonly { readonly key: Key; readonly value: Value }[] = [];
  readonly #most: number;
  readonly #same: (one: Key, other: Key) => boolean;

  /** @param most so many are kept, at least one; the one made or asked for longest ago goes first */
  constructor(most: number, same: (one: Key, other: Key) => boolean) {
    this.#most = most;
    this.#same = same;
  }

  get size(): number {
    return this.#kept.length;
  }

  of(key: Key, make: () => Value): Value {
    const found = this.#kept.find((one) => this.#same(one.key, key)) ?? { key, value: make() };
    this.#kept = [...this.#kept.filter((one) => one !== found), found].slice(-this.#most);
    return found.value;
  }
}
