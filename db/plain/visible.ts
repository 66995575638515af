/**
 * A text as it may be shown anywhere: signs that a terminal or a window would obey (controls, breaks of line, changes of direction) and halves of
 * surrogate pairs are written out as `\u001b`.
 */
export const visible = (text: string): string =>
  text.replace(
    /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/gu,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
