import { type Term, terms } from './terms.ts';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const forms = terms
  .flatMap((term) => [term.term, ...term.also].map((form) => ({ form, term })))
  .sort((a, b) => b.form.length - a.form.length);
const anyForm = new RegExp(`(?<![\\p{L}\\p{N}])(?:${forms.map(({ form }) => escaped(form)).join('|')})(?![\\p{L}\\p{N}])`, 'giu');
const termOfForm = new Map(forms.map(({ form, term }) => [form.toLowerCase(), term]));

/** Every use of a term in a text, as it is written there, from left to right. */
function* usesIn(text: string): Generator<{ readonly form: string; readonly at: number; readonly term: Term }> {
  for (const { 0: form, index: at } of text.matchAll(anyForm)) {
    const term = termOfForm.get(form.toLowerCase());
    if (term !== undefined) yield { form, at, term };
  }
}

/** The terms a text uses, each once, in the order of the glossary. The longest form counts: "bearing housing" is no "bearing set". */
export function termsIn(text: string): readonly Term[] {
  const met = new Set([...usesIn(text)].map(({ term }) => term));
  return terms.filter((term) => met.has(term));
}

/** The first term in a text, with what stands before and after it; null where there is none. */
export function firstTerm(
  text: string,
): { readonly before: string; readonly form: string; readonly after: string; readonly term: Term } | null {
  const [use] = usesIn(text);
  if (use === undefined) return null;
  const { form, at, term } = use;
  return { before: text.slice(0, at), form, after: text.slice(at + form.length), term };
}

export type TextPiece = { readonly text: string; readonly term: Term | null };

/** Words one reads past in a sentence: they are looked up from the list of the screen's words, or where they are a label. */
const everyday: ReadonlySet<string> = new Set('maker family generation model part-number slot port joint sheet mark atlas-pack'.split(' '));

/**
 * A text in pieces, each trade term apart where it is first used. A form with a capital inside a sentence is part of a name, and no term: a
 * "Petrel 13 Cartridge". Joined again, the pieces are the text.
 */
export function piecesOf(text: string): readonly TextPiece[] {
  const pieces: TextPiece[] = [];
  const met = new Set<string>();
  let from = 0;
  for (const { form, at, term } of usesIn(text)) {
    if (met.has(term.id) || everyday.has(term.id) || isInName(text, at, form)) continue;
    met.add(term.id);
    if (at > from) pieces.push({ text: text.slice(from, at), term: null });
    pieces.push({ text: form, term });
    from = at + form.length;
  }
  if (from < text.length) pieces.push({ text: text.slice(from), term: null });
  return pieces;
}

const isInName = (text: string, at: number, form: string): boolean =>
  /^\p{Lu}/u.test(form) && form !== 'A/R' && form !== 'V-band' && !/(?:^|[.:;!?]\s+)$/u.test(text.slice(0, at));

/** Which of these texts are the first to use their term: there it is linked, and not again. */
export function firstUses(texts: readonly string[]): ReadonlySet<number> {
  const met = new Set<string>();
  return new Set(
    texts.flatMap((text, index) => {
      const term = firstTerm(text)?.term.id;
      if (term === undefined || met.has(term)) return [];
      met.add(term);
      return [index];
    }),
  );
}

/** Terms whose name, other forms or explanation hold every word typed; those whose name begins so come first. */
export function searchTerms(typed: string): readonly Term[] {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [...terms].sort((a, b) => a.term.localeCompare(b.term, 'en'));
  const rank = ({ term, also, short, more }: Term): number => {
    const name = term.toLowerCase();
    if (name.startsWith(wanted.join(' '))) return 0;
    if (wanted.every((word) => [name, ...also.map((form) => form.toLowerCase())].some((form) => form.includes(word)))) return 1;
    return wanted.every((word) => `${short} ${more}`.toLowerCase().includes(word)) ? 2 : 3;
  };
  return terms
    .map((term) => ({ term, rank: rank(term) }))
    .filter((one) => one.rank < 3)
    .sort((a, b) => a.rank - b.rank || a.term.term.localeCompare(b.term.term, 'en'))
    .map(({ term }) => term);
}
