const smallest = 8;
const knots = [
  ...['reef', 'bowline', 'clove', 'sheet', 'carrick', 'fisher', 'rolling', 'timber', 'anchor', 'becket', 'marlin', 'thief'],
  ...['noose', 'cringle', 'barrel', 'stopper', 'monkey', 'crown', 'wall', 'lanyard', 'diamond', 'cable', 'stevedore', 'cat'],
];

/** The knot that is cast on a turbine housing for its A/R, whole mm: `reef knot`. */
export const knotOf = (areaRatio: number): string => {
  const knot = knots[areaRatio - smallest];
  if (knot === undefined) throw new Error(`no knot for an A/R of ${areaRatio} mm`);
  return `${knot} knot`;
};
