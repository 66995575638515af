/** What is said of a nameplate that is not there, in a build: it is no slot to be filled (O5). */
export const onlyMaker = 'only the maker issues one';
