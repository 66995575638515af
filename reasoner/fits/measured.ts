/**
 * A dimension measured on the part in hand. It takes the place of the catalogue's limits: `u` is its standard uncertainty in mm (GUM, JCGM 100:2008),
 * and it is held to lie in [value − 2u, value + 2u] wherever the worst case is asked, as in O2.
 */
export interface Measured {
  readonly kind: 'measured';
  readonly value: number;
  readonly u: number;
}
