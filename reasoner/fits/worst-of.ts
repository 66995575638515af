import type { FitVerdict } from './fit.ts';

const order: readonly FitVerdict[] = ['will not fit', 'not known', 'after work', 'drops in'];

/**
 * Several verdicts that must all be good (F2): one that will not fit decides, known or not the others; then what is not known;
 * then what needs work. Nothing to judge is nothing in the way.
 */
export const worstOf = (verdicts: readonly FitVerdict[]): FitVerdict => order.find((verdict) => verdicts.includes(verdict)) ?? 'drops in';
