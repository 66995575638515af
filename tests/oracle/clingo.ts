import clingo from 'clingo-wasm';

/** An atom of an answer set, its arguments whole numbers: `c(1,4)`. */
export interface Atom {
  readonly name: string;
  readonly args: readonly number[];
}

/** All answer sets of a program, as clingo finds them under these options. */
export const answerSets = async (program: string, options: readonly string[] = []): Promise<Atom[][]> => {
  const result = await clingo.run(program, 0, [...options]);
  if (result.Result === 'ERROR') throw new Error(`clingo: ${result.Error}\n${program}`);
  if (result.Result === 'UNKNOWN') throw new Error(`clingo gave no answer:\n${program}`);
  return result.Call.flatMap((call) => call.Witnesses ?? []).map((witness) => (witness as { Value: string[] }).Value.map(atom));
};

/** Answer sets in which the atoms given a heuristic are subset-minimal, each once. */
export const minimalAnswerSets = (program: string): Promise<Atom[][]> => answerSets(program, ['--heuristic=Domain', '--enum-mode=domRec']);

const atom = (text: string): Atom => {
  const open = text.indexOf('(');
  if (open < 0) return { name: text, args: [] };
  return {
    name: text.slice(0, open),
    args: text
      .slice(open + 1, -1)
      .split(',')
      .map(Number),
  };
};
