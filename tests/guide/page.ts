import type { HelpSection } from '../../renderer/help/help.ts';
import { parts } from '../../renderer/help/parts.ts';
import { type Piece, readLabel, type Said } from '../../renderer/help/said.ts';
import { type KeyGroup, type KeyLine, keys } from '../../renderer/look/keys.ts';
import { pictures } from './pictures.ts';

/** The user’s guide as a page of the repository: what help says in the window, with pictures. */
export const guidePage = (): string =>
  [
    '# Using Kinplate',
    'What Help says in the window (F1 or ? on any screen), with pictures. `npm run guide` writes this page and takes the pictures anew; the words stand in `renderer/help/parts`.',
    ...parts.flatMap(({ id, head, lead, counted, sections }) => [
      `## ${head}`,
      ...(lead === undefined ? [] : [text(lead)]),
      ...picturesOf(id),
      ...sections.flatMap((section, index) => sectionOf(section, counted ? `${index + 1}. ` : '')),
    ]),
    '## Keys',
    'Tab goes to everything there is, and Enter does it. On a Mac Cmd does what Ctrl does.',
    ...Object.values<KeyGroup>(keys).map(groupOf),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');

const sectionOf = ({ id, head, lead, begins, steps = [], notes = [] }: HelpSection, count: string): readonly string[] => [
  `### ${count}${head}`,
  ...(lead === undefined ? [] : [text(lead)]),
  ...(begins === undefined ? [] : [`Begins at **${plain(readLabel(begins.is))}**.`]),
  ...(steps.length === 0 ? [] : [steps.map((said, index) => `${index + 1}. ${text(said)}`).join('\n')]),
  ...(notes.length === 0 ? [] : [notes.map((said) => `- ${text(said)}`).join('\n')]),
  ...picturesOf(id),
];

const picturesOf = (heading: string): readonly string[] =>
  pictures.filter(({ after }) => after === heading).map(({ file, shows }) => `![${plain(shows)}](guide/${file})`);

const groupOf = ({ head, lines }: KeyGroup): string =>
  [`| ${plain(head)} | |`, '|-|-|', ...Object.values(lines).map((line) => `| ${pressed(line)} | ${plain(line.does)} |`)].join('\n');

const text = (said: Said): string => said.map(piece).join('');

const piece = (one: Piece): string => {
  if (typeof one === 'string') return plain(one);
  if ('label' in one) return `**${plain(readLabel(one))}**`;
  if ('typed' in one) return `\`${one.typed}\``;
  return pressed(one.keys);
};

const pressed = ({ press }: KeyLine): string =>
  press
    .map((one) =>
      one
        .split(/\+(?=.)/)
        .map((key) => (key === '…' ? key : `<kbd>${key}</kbd>`))
        .join('+'),
    )
    .join(' ');

/** What Markdown would take for its own. */
const plain = (words: string): string => words.replace(/[\\`*_<>[\]|]/g, '\\$&');
