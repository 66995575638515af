/** Millimetres in one inch, exact (international inch, 1959). */
export const mmPerInch = 25.4;

export const lengthUnits = ['mm', 'inch'] as const;
export type LengthUnit = (typeof lengthUnits)[number];
