/** One cell by RFC 4180: quoted where it holds a comma, a quote or a line break. */
const cell = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** A table with its header, lines ended by LF. */
export const csvTable = (header: readonly string[], rows: readonly (readonly string[])[]): string =>
  [header, ...rows].map((row) => `${row.map(cell).join(',')}\n`).join('');
