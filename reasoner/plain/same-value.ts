/** Whether two plain values say the same, in whatever order their fields stand; a field that is undefined is not there. */
export const sameValue = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null || Array.isArray(a) !== Array.isArray(b)) return false;
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  if (Array.isArray(a) && a.length !== (b as unknown[]).length) return false;
  return [...new Set([...Object.keys(one), ...Object.keys(other)])].every((key) => sameValue(one[key], other[key]));
};
