import type { Cut, Operation } from '../../../reasoner/index.ts';

const plain = <T>(value: unknown): T => value as T;
const holds = { kind: 'tolerance', tolerance: 0.02 };

/** An operation on one dimension, its slot read off the dimension's id, an hour long; called by its own id unless told. */
const operation = (id: string, of: string, does: unknown, rest: Partial<Operation>): Operation =>
  plain({
    id,
    name: id.replaceAll('-', ' '),
    slot: of.split('.')[0],
    does,
    takes: [],
    hours: 1,
    turning: false,
    cautions: [],
    source: 'made-up',
    ...rest,
  });

/** @param most mm */
export const cut = (id: string, of: string, way: Cut['way'], most: number, rest: Partial<Operation> = {}): Operation =>
  operation(id, of, { kind: 'cut', cuts: [{ feature: of, way, most, holds, metal: [], moves: [] }] }, rest);

/** @param wall mm; leaves a bore at least two walls smaller */
export const ring = (id: string, of: string, wall: number, rest: Partial<Operation> = {}): Operation =>
  operation(id, of, { kind: 'ring', feature: of, way: 'smaller', wall, holds }, rest);

/** Made anew as one of these. */
export const remake = (id: string, of: string, anyOf: readonly string[], rest: Partial<Operation> = {}): Operation =>
  operation(id, of, { kind: 'remake', offers: [{ kind: 'choice', feature: of, anyOf }] }, rest);
