/**
 * Mean linear expansion near room temperature, 1e-6 per K. C: Callister, *Materials Science and Engineering*, table B.6, read in a copy. M: from memory
 * and uncertain. At turbine temperatures the figures are greater; where it matters the shop gives its own.
 */
export interface Material {
  readonly name: string;
  /** 1/K */
  readonly expansion: number;
  readonly status: 'C' | 'M';
}

const material = (name: string, millionths: number, status: 'C' | 'M'): Material => ({ name, expansion: millionths * 1e-6, status });

export const materials = {
  'aluminium 2024': material('aluminium 2024', 22.9, 'C'),
  'aluminium 6061': material('aluminium 6061', 23.6, 'C'),
  'aluminium 7075': material('aluminium 7075', 23.4, 'C'),
  'aluminium 356.0': material('cast aluminium 356.0', 21.5, 'C'),
  'steel 1040': material('steel 1040', 11.3, 'C'),
  'steel 4140': material('steel 4140', 12.3, 'C'),
  'steel 4340': material('steel 4340', 12.3, 'C'),
  'grey iron': material('grey cast iron', 11.4, 'C'),
  'stainless 304': material('stainless steel 304', 17.2, 'C'),
  'bearing bronze C93200': material('bearing bronze C93200', 18.0, 'C'),
  'nickel alloy 625': material('nickel alloy 625', 12.8, 'C'),
  'titanium Ti-6Al-4V': material('titanium Ti-6Al-4V', 8.6, 'C'),
  'ductile iron D-5S': material('austenitic ductile iron D-5S', 12.9, 'M'),
  'nickel alloy 713C': material('cast nickel alloy 713C, to 93 °C', 10.6, 'M'),
  'nickel alloy 713C to 538 °C': material('cast nickel alloy 713C, to 538 °C', 13.5, 'M'),
  'nickel alloy 713C to 760 °C': material('cast nickel alloy 713C, to 760 °C', 14.8, 'M'),
} as const satisfies Readonly<Record<string, Material>>;
