import { list } from '../../reasoner/plain/text.ts';
import type { FindingPlace, PackFault, PackWarning } from '../answers.ts';
import { visible } from '../plain/visible.ts';
import type { Fault, Faults } from '../read/faults.ts';
import type { Warning } from './warnings.ts';

/** So many of the other places are told. */
const placesTold = 5;
/** So many of the others are named. */
const namesTold = 4;

/** Faults with one cause as one: the same thing found where the same was expected, in the same file and column, whichever entry it stands in. */
export const faultsOnce = (faults: readonly Fault[]): readonly PackFault[] =>
  grouped(faults, ({ code, file, column, found, expected }) => JSON.stringify([code, file, sameColumn(column), found, expected])).map(
    (alike) => {
      const [first] = alike as [Fault];
      const { code, place, sentence, file, row, column, line, character, found, expected } = first;
      const more = alike.length === 1 ? '' : ` This is so in ${alike.length} places.`;
      return {
        ...{ code, place, sentence: `${sentence}${more}`, file, row, column, line, character, found, expected },
        many: alike.length,
        also: alike.slice(1, 1 + placesTold).map(placeOf),
      };
    },
  );

/** The same of warnings, whose rules say what is alike; the names of the others stand with what was found. */
export const warningsOnce = (warnings: readonly (Warning & { readonly about: string })[], faults: Faults): readonly PackWarning[] =>
  grouped(warnings, ({ about, alike }, n) => (alike === null ? String(n) : JSON.stringify([about, alike.cause]))).map((all) => {
    const [first] = all as [(typeof all)[number]];
    const others = all.slice(1).map(({ alike }) => JSON.stringify(alike?.name ?? ''));
    const named = others.length > namesTold ? [...others.slice(0, namesTold), `${others.length - namesTold} more`] : others;
    const found = others.length === 0 ? first.found : visible(`${first.found}; the same of ${list(named)}`);
    const { code, place, file, row, column, means, likely, about } = first;
    return {
      ...{ code, place, sentence: `${place}: ${found}. ${means}${likely === null ? '' : ` ${likely}`}`, file, row, column },
      ...{ ...faults.whereIs(first), found, means, likely, about, many: all.length },
      also: all.slice(1, 1 + placesTold).map((one) => placeOf({ ...one, ...faults.whereIs(one) })),
    };
  });

/** `[3].rules[0].min` of any entry. */
const sameColumn = (column: string | null): string | null => column?.replace(/\[\d+\]/g, '[]') ?? null;

const placeOf = ({ file, row, column, line, character }: FindingPlace): FindingPlace => ({ file, row, column, line, character });

const grouped = <T>(all: readonly T[], keyOf: (one: T, n: number) => string): readonly (readonly T[])[] => {
  const groups = new Map<string, T[]>();
  for (const [n, one] of all.entries()) {
    const key = keyOf(one, n);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()];
};

/** `file:line:character: sentence`, as editors and scripts follow it; of a finding about a whole file its name alone. */
export const findingLine = (finding: PackFault | PackWarning): string => {
  const { file, line, character, many, found } = finding;
  const at = [visible(file), line, line === null ? null : character].filter((word) => word !== null).join(':');
  if (!('expected' in finding)) return `${at}: ${found}. ${finding.means}${finding.likely === null ? '' : ` ${finding.likely}`}`;
  // What another step of loading says stands as it says it.
  if (found === finding.sentence) return `${at}: ${found}`;
  const others = finding.also.map((one) => `${visible(one.file)}:${one.line ?? one.row ?? 1}`);
  const rest = many - 1 - others.length;
  const so = many === 1 ? '' : ` The same at ${list(rest > 0 ? [...others, `${rest} more places`] : others)}.`;
  return `${at}: found ${found}, expected ${finding.expected}.${so}`;
};
