import type { Assumptions } from '../../reasoner/index.ts';
import { fieldsMerged } from '../../reasoner/plain/fields-merged.ts';
import { plain } from '../values/figures.ts';
import type { Read } from '../values/readSeen.ts';

/** What the odds take for granted, as the window lets it be changed: in sentences with a percentage, within bounds. */
export interface Assumed {
  readonly key: keyof Assumptions;
  readonly label: string;
  readonly before: string;
  readonly after: string;
  /** Percent. */
  readonly least: number;
  readonly greatest: number;
  /** Asked about only since windows have kept figures without it: what it then starts from, the reasoner’s own starting share. */
  readonly later?: number;
}

/**
 * The bounds keep every answer possible: without slips a sheet can hold what could never be seen, and without unlisted parts the
 * atlas would be taken for all there is.
 */
export const assumed: readonly Assumed[] = [
  {
    key: 'stranger',
    label: 'Units of no listed model, percent',
    before: 'A unit was built as a model the atlas does not list in',
    after: 'of cases; else as any of its models, each as likely as another.',
    least: 0.1,
    greatest: 90,
    later: 0.05,
  },
  {
    key: 'swapped',
    label: 'Swapped parts, percent of slots',
    before: 'A slot no longer holds a part of the model the unit was built as in',
    after: 'of cases.',
    least: 1,
    greatest: 50,
  },
  {
    key: 'unlisted',
    label: 'Unlisted parts, percent of swapped parts',
    before: 'Of the parts swapped in, the atlas does not list',
    after: '.',
    least: 1,
    greatest: 90,
  },
  {
    key: 'misfit',
    label: 'Parts that do not fit, percent of listed parts swapped in',
    before: 'Of the listed parts swapped in,',
    after: 'do not fit beside the others as made: worked on, forced, or not as the atlas has them.',
    least: 0.1,
    greatest: 50,
    later: 0.05,
  },
  {
    key: 'slip',
    label: 'Slips, percent of readings',
    before: 'A reading is written down wrong in',
    after: 'of entries.',
    least: 0.1,
    greatest: 20,
  },
];

/** A typed percentage as a share, 0..1, or the sentence that says what is wrong with it. */
export const readPercent = (typed: string, { least, greatest }: Assumed): Read<number> => {
  const text = typed.trim().replace(/\s*%$/, '').replace(',', '.');
  const percent = /^\d+(\.\d+)?$|^\.\d+$/.test(text) ? Number(text) : Number.NaN;
  if (percent >= least && percent <= greatest) return { ok: true, value: percent / 100 };
  return {
    ok: false,
    sentence: `${text === '' ? 'Nothing' : `“${typed.trim()}”`} was given; ${plain(least, 1)} to ${plain(greatest, 1)} percent is wanted.`,
  };
};

export const percentOf = (share: number): string => plain(share * 100, 2);

/** What the window kept, or null when it kept nothing that still makes sense. */
export const assumedFrom = (kept: string | null): Assumptions | null => {
  if (kept === null) return null;
  try {
    const given = JSON.parse(kept) as Partial<Record<keyof Assumptions, unknown>>;
    const found = Object.fromEntries(assumed.map(({ key, later }) => [key, given[key] ?? later])) as Record<keyof Assumptions, unknown>;
    const sound = assumed.every(({ key, least, greatest }) => {
      const share = found[key];
      return typeof share === 'number' && share * 100 >= least && share * 100 <= greatest;
    });
    return sound ? (found as Assumptions) : null;
  } catch {
    return null;
  }
};

/**
 * Figures one window sets, together with what another has set since the first read them (H5): a figure only one of them changed is as that one has it, and of one both changed, what
 * is set last. Going back to the starting figures (null) means all of them.
 * @param shown what this window showed when they were set
 * @param there what is kept now
 */
export const assumedTogether = (shown: Assumptions, next: Assumptions | null, there: Assumptions | null): Assumptions | null =>
  next === null || there === null ? next : fieldsMerged(shown, next, there, () => 'mine').merged;
