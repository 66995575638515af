const step = 100;

/** Of a long list that is drawn around the place one is at: from which entry, and up to which. It changes once in a hundred steps, so that the list lies still while one goes through it; a short list is drawn whole. */
export const drawnAround = (at: number, count: number): { readonly from: number; readonly to: number } => {
  if (count <= 3 * step) return { from: 0, to: count };
  const from = Math.max(0, (Math.floor(Math.max(0, at) / step) - 1) * step);
  return { from, to: Math.min(count, from + 3 * step) };
};
