import type { TermId, TradeTerm } from '../../reasoner/index.ts';
import { asPattern } from '../../reasoner/plain/as-pattern.ts';

/** A form under which a term is met, as the atlas writes it. */
interface Form {
  readonly form: string;
  readonly term: TradeTerm;
}

export type TextPiece = { readonly text: string; readonly term: TradeTerm | null };

/** The trade terms of an atlas, and where they stand in texts. */
export interface Glossary {
  readonly terms: readonly TradeTerm[];
  term(id: string): TradeTerm | undefined;
  /** The terms a text uses, each once, in the order of the glossary. The longest form counts: "bearing housing" is no "bearing set". */
  termsIn(text: string): readonly TradeTerm[];
  /** The first term in a text, with what stands before and after it; null where there is none. */
  firstTerm(text: string): { readonly before: string; readonly form: string; readonly after: string; readonly term: TradeTerm } | null;
  /**
   * A text in pieces, each trade term apart where it is first used, everyday ones left alone. A form with a capital of its own inside a sentence is part of a
   * name, and no term: a "Petrel 13 Cartridge". Joined again, the pieces are the text.
   */
  piecesOf(text: string): readonly TextPiece[];
  /** Which of these texts are the first to use their term: there it is linked, and not again. */
  firstUses(texts: readonly string[]): ReadonlySet<number>;
  /** Terms whose name, other forms or explanation hold every word typed; those whose name begins so come first. */
  search(typed: string): readonly TradeTerm[];
}

const made = new WeakMap<readonly TradeTerm[], Glossary>();

/** The glossary of these terms; made once for as long as they are the same. */
export const glossaryOf = (terms: readonly TradeTerm[]): Glossary => {
  const known = made.get(terms);
  if (known !== undefined) return known;
  const glossary = makeGlossary(terms);
  made.set(terms, glossary);
  return glossary;
};

const makeGlossary = (terms: readonly TradeTerm[]): Glossary => {
  const byId = new Map<string, TradeTerm>(terms.map((term) => [term.id, term]));
  const forms = terms.flatMap((term): Form[] => [term.name, ...(term.alsoCalled ?? [])].map((form) => ({ form, term })));
  const uses = usesOf(forms);
  const termsIn = (text: string) => {
    const met = new Set([...uses(text)].map(({ term }) => term));
    return terms.filter((term) => met.has(term));
  };
  const firstTerm: Glossary['firstTerm'] = (text) => {
    const [use] = uses(text);
    if (use === undefined) return null;
    const { form, at, term } = use;
    return { before: text.slice(0, at), form, after: text.slice(at + form.length), term };
  };
  return {
    terms,
    term: (id) => byId.get(id),
    termsIn,
    firstTerm,
    piecesOf: (text) => piecesOf(text, uses(text)),
    firstUses: (texts) => {
      const met = new Set<TermId>();
      return new Set(
        texts.flatMap((text, index) => {
          const term = firstTerm(text)?.term.id;
          if (term === undefined || met.has(term)) return [];
          met.add(term);
          return [index];
        }),
      );
    },
    search: (typed) => search(terms, typed),
  };
};

/** One use of a term in a text, as it is written there. */
interface Use {
  readonly form: string;
  readonly at: number;
  readonly term: TradeTerm;
  /** As the atlas writes this form. */
  readonly listed: string;
}

/** Finds every use in a text, from left to right. Without terms nothing is one. */
const usesOf = (forms: readonly Form[]): ((text: string) => Generator<Use>) => {
  const longestFirst = [...forms].sort((a, b) => b.form.length - a.form.length);
  const anyForm =
    forms.length === 0
      ? null
      : new RegExp(`(?<![\\p{L}\\p{N}])(?:${longestFirst.map(({ form }) => asPattern(form)).join('|')})(?![\\p{L}\\p{N}])`, 'giu');
  const byForm = new Map(forms.map((one) => [one.form.toLowerCase(), one]));
  return function* uses(text) {
    if (anyForm === null) return;
    for (const { 0: form, index: at } of text.matchAll(anyForm)) {
      const found = byForm.get(form.toLowerCase());
      if (found !== undefined) yield { form, at, term: found.term, listed: found.form };
    }
  };
};

const piecesOf = (text: string, uses: Iterable<Use>): readonly TextPiece[] => {
  const pieces: TextPiece[] = [];
  const met = new Set<TermId>();
  let from = 0;
  for (const use of uses) {
    const { form, at, term } = use;
    if (met.has(term.id) || term.everyday === true || isInName(text, use)) continue;
    met.add(term.id);
    if (at > from) pieces.push({ text: text.slice(from, at), term: null });
    pieces.push({ text: form, term });
    from = at + form.length;
  }
  if (from < text.length) pieces.push({ text: text.slice(from), term: null });
  return pieces;
};

const beginsLarge = (text: string): boolean => /^\p{Lu}/u.test(text);

const isInName = (text: string, { form, at, listed }: Use): boolean =>
  beginsLarge(form) && !beginsLarge(listed) && !/(?:^|[.:;!?]\s+)$/u.test(text.slice(0, at));

const search = (terms: readonly TradeTerm[], typed: string): readonly TradeTerm[] => {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [...terms].sort((a, b) => a.name.localeCompare(b.name, 'en'));
  const rank = ({ name: called, alsoCalled = [], short, more }: TradeTerm): number => {
    const name = called.toLowerCase();
    if (name.startsWith(wanted.join(' '))) return 0;
    if (wanted.every((word) => [name, ...alsoCalled.map((form) => form.toLowerCase())].some((form) => form.includes(word)))) return 1;
    return wanted.every((word) => `${short} ${more}`.toLowerCase().includes(word)) ? 2 : 3;
  };
  return terms
    .map((term) => ({ term, rank: rank(term) }))
    .filter((one) => one.rank < 3)
    .sort((a, b) => a.rank - b.rank || a.term.name.localeCompare(b.term.name, 'en'))
    .map(({ term }) => term);
};
