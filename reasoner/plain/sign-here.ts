/** What is written by hand at the end of a report: nothing of it is said by the program. */
export const signHere: readonly string[] = ['Name', 'Date', 'Signature'];
