/** One step of the schema. Once it has been on somebody's disk it is never edited: a mistake is mended by the next one. */
export interface Migration {
  /** 1, 2, 3 … without a gap. */
  readonly number: number;
  readonly name: string;
  /** Several statements. It runs in one transaction with foreign keys off, and must bring back any trigger lost with a table it rebuilds. */
  readonly sql: string;
}
