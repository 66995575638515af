import { createRequire } from 'node:module';

/** The cuts of the open font (SIL OFL) that are embedded. */
export type Cut = 'plain' | 'bold' | 'italic';

const files: Readonly<Record<Cut, string>> = { plain: '400-normal', bold: '600-normal', italic: '400-italic' };

/** The font comes in pieces by script; a text is set from as few as it takes, the first that has a letter being used. */
const scripts = ['latin', 'latin-ext', 'cyrillic', 'greek', 'vietnamese', 'cyrillic-ext', 'greek-ext'] as const;
export type Script = (typeof scripts)[number];

const { resolve } = createRequire(import.meta.url);

/** Where the font lies that has this cut and script. */
export const fontFile = (cut: Cut, script: Script): string =>
  resolve(`@fontsource/source-sans-3/files/source-sans-3-${script}-${files[cut]}.woff`);

const ranges: ReadonlyMap<Script, readonly (readonly [number, number])[]> = (() => {
  const said = createRequire(import.meta.url)('@fontsource/source-sans-3/unicode.json') as Readonly<Record<Script, string>>;
  const read = (text: string) =>
    text.split(',').map((range): readonly [number, number] => {
      const [from, to = from] = range.trim().replace(/^U\+/, '').split('-') as [string, string?];
      return [Number.parseInt(from, 16), Number.parseInt(to, 16)];
    });
  return new Map(scripts.map((script) => [script, read(said[script])]));
})();

const scriptOf = (letter: string): Script | null => {
  const code = letter.codePointAt(0) as number;
  return scripts.find((script) => ranges.get(script)?.some(([from, to]) => from <= code && code <= to)) ?? null;
};

export interface Run {
  readonly script: Script;
  readonly text: string;
}

/**
 * A text in runs of one script each. What cannot be set on paper is not dropped: a letter the font has in no script is written as its
 * code point (`[U+6D77]`), and control characters but the line feed become spaces.
 */
export const runsOf = (text: string): Run[] => {
  const runs: Run[] = [];
  const add = (script: Script, piece: string) => {
    const last = runs.at(-1);
    if (last?.script === script) runs[runs.length - 1] = { script, text: last.text + piece };
    else runs.push({ script, text: piece });
  };
  const plain = text.normalize('NFC').replace(/\r\n?/g, '\n');
  for (const letter of plain) {
    if (letter !== '\n' && /\p{Cc}|\p{Cf}/u.test(letter)) add(runs.at(-1)?.script ?? 'latin', ' ');
    else {
      const script = scriptOf(letter);
      if (script !== null) add(script, letter);
      else add('latin', `[U+${(letter.codePointAt(0) as number).toString(16).toUpperCase().padStart(4, '0')}]`);
    }
  }
  return runs.length === 0 ? [{ script: 'latin', text: '' }] : runs;
};
