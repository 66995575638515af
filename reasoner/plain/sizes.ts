/** A length or angle with as many decimals as it needs, three at most. */
export const size = (value: number): string => String(Math.round(value * 1000) / 1000);

/** The ± of a standard uncertainty: twice it, as agreement is judged (O2). Two figures where three decimals would leave none. */
export const reach = (u: number): string => (2 * u < 0.01 ? String(Number((2 * u).toPrecision(2))) : size(2 * u));
