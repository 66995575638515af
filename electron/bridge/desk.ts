import type { z } from 'zod';
import type { CallName, Contract, Reply } from './contract.ts';

/** A call's argument after its schema has read it. */
export type Asked<C extends CallName> = z.output<Contract[C]['args']>;

/** Every call the window may make, in one object. Features supply their own calls (`atlas.ts`, `sheets.ts`, `verdicts.ts`). */
export type Desk = { readonly [C in CallName]: (asked: Asked<C>) => Promise<Reply<C>> };

/** The part of the desk one feature answers for: `Calls<'atlas'>` is every `atlas.*`. */
export type Calls<Feature extends string> = Pick<Desk, Extract<CallName, `${Feature}.${string}`>>;
