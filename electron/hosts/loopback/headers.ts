/** What a page says of a call beside its argument; tests/unit/electron holds `page/desk.ts`, which may not import values from here, to the same names. */
/** Which page of a browser asks: another at every loading. */
export const windowHeader = 'x-kinplate-window';
/** The page's own number of the call. */
export const askHeader = 'x-kinplate-ask';
/** Where in the page the answer goes, percent-encoded. */
export const placeHeader = 'x-kinplate-place';
