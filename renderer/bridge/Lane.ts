/** Runs one errand at a time; of those that wait, only the newest is run. */
export class Lane {
  #busy = false;
  #next: (() => Promise<void>) | null = null;

  run(errand: () => Promise<void>): void {
    this.#next = errand;
    if (!this.#busy) void this.#work();
  }

  async #work(): Promise<void> {
    this.#busy = true;
    try {
      while (this.#next !== null) {
        const errand = this.#next;
        this.#next = null;
        await errand();
      }
    } finally {
      this.#busy = false;
    }
  }
}
