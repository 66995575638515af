/**
 * The cautions that stand with every verdict (N3, F5). Common practice, no source. A ticket clause points at them by number.
 */
export const cautions: readonly string[] = [
  'A pattern part unknown to the atlas cannot be excluded by eye, and the maker’s confirmation of the plate is the last word.',
  'Looks alone do not prove origin, and nothing here is a legal opinion.',
  'A rotor turns fast enough to burst: after any change of a wheel or shaft the rotor must be balanced, housings must be able to contain a burst, the oil supply must be right, and local road and emission rules and a licensed workshop have the last word on fitting it.',
];
export const caution = { unknownPattern: 0, looks: 1, rotor: 2 } as const;

/** Those that stand with an answer that tells parts apart by their looks and changes nothing on a unit. */
export const cautionsOfLooks: readonly string[] = [cautions[caution.unknownPattern] as string, cautions[caution.looks] as string];
