/**
 * A spreadsheet reads a cell that begins with one of these as a formula, whoever typed it into a title or a note; an apostrophe before it
 * makes it text (OWASP, CSV Injection). Full-width forms of them are read the same way in some locales.
 */
export const guarded = (value: string | number): string | number =>
  typeof value === 'string' && /^[\s\p{Cc}\p{Cf}]*[=+\-@＝＋－＠|%]|^[\t\r\n]/u.test(value) ? `'${value}` : value;
