import clingo from 'clingo-wasm';

/** An atom of an answer set, its arguments whole numbers: `c(1,4)`. */
export interface Atom {
  readonly name: string;
  readonly args: readonly number[];
}

/** Seconds a program took, as clingo says: all of it, and the part in which it solved what it had read and grounded. */
export interface ClingoTime {
  readonly total: number;
  readonly solving: number;
}

/** All answer sets of a program, as clingo finds them under these options. */
export const answerSets = async (
  program: string,
  options: readonly string[] = [],
  took?: (time: ClingoTime) => void,
): Promise<Atom[][]> => {
  const result = await clingo.run(program, 0, [...options]);
  if (result.Result === 'ERROR') throw new Error(`clingo: ${result.Error}\n${program}`);
  if (result.Result === 'UNKNOWN') throw new Error(`clingo gave no answer:\n${program}`);
  took?.({ total: result.Time.Total, solving: result.Time.Solve });
  return result.Call.flatMap((call) => call.Witnesses ?? []).map((witness) => (witness as { Value: string[] }).Value.map(atom));
};

/** Answer sets in which the atoms given a heuristic are subset-minimal, each once. */
export const minimalAnswerSets = (program: string, took?: (time: ClingoTime) => void): Promise<Atom[][]> =>
  answerSets(program, ['--heuristic=Domain', '--enum-mode=domRec'], took);

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
