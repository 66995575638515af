/** Three hundred invented compressor and turbine wheels, as a shop might keep them: a part a row, sizes in inches here and millimetres there. */
export const weatherRows = (): (string | number)[][] => {
  const rows: (string | number)[][] = [
    ['Part No', 'Description', 'Type', 'Make', 'inducer (in)', 'exducer dia [mm]', 'bore', 'full blade count', 'back', 'Notes'],
  ];
  for (let n = 0; n < 300; n += 1) {
    const compressor = n % 2 === 0;
    const inducer = 1.5 + (n % 40) * 0.015625;
    rows.push([
      `GUST ${1000 + n * 7}`,
      `${compressor ? 'comp' : 'turbine'} wheel ${n}`,
      compressor ? 'comp wheel' : 'Turbine Wheel',
      n % 3 === 0 ? 'Sirocco & Daughter' : 'HOARFROST',
      n % 4 === 0 && inducer % 1 > 0 ? `${Math.floor(inducer)} ${Math.round((inducer % 1) * 64)}/64"` : inducer,
      n % 5 === 0 ? '52,4 ±0,05' : 50 + (n % 20) / 10,
      compressor ? (n % 6 === 0 ? '6 H7' : 6) : '',
      compressor ? (n % 7 === 0 ? '6+6' : 6) : '',
      n % 9 === 0 ? 'scalloped between the blades' : 'full back disc',
      'shelf 4',
    ]);
  }
  return rows;
};

/** Ten cells nobody can read, each with what was meant: a row, a column, what stands there, and what should. */
export const spoiltCells = [
  [5, 4, '1,234', '1.578125'],
  [33, 2, 'flywheel', 'impeller'],
  [48, 5, '524', '52.4'],
  [77, 7, '6.5', '6'],
  [101, 8, 'fluted', 'full'],
  [150, 4, '2 1/0"', '2 1/4"'],
  [222, 0, '1.23E+11', 'GUST 2554'],
  [250, 5, '52.4 -0.05', '52.4 +0/-0.05'],
  [290, 5, 'about 52', '?'],
  [299, 6, '6 H99', '6 H7'],
] as const;

/** The same parts with these cells spoilt. */
export const spoiltRows = (): (string | number)[][] => {
  const rows = weatherRows();
  for (const [at, column, stands] of spoiltCells) (rows[at] as (string | number)[])[column] = stands;
  return rows;
};
