/** Millimetres in one inch, exact (international inch, 1959). */
export const mmPerInch = 25.4;
