import type { Report, ReportBlock, ReportLine, ReportPhotograph, ReportSection } from '../../reasoner/index.ts';
import { signHere } from '../../reasoner/plain/sign-here.ts';
import { drawGraph } from './draw-graph.ts';
import { ink, measure, Paper, type Part, page, soft } from './paper.ts';
import { type PhotoFile, type PhotoOf, type Printed, printedOf } from './photographs.ts';

export interface PdfOptions {
  /** When the file says it was made. */
  readonly made: Date;
  /** Where bytes are not there any more, the page says so. */
  readonly photo: PhotoOf;
  /** The picture of the letterhead, PNG or JPEG; null where there is none any more. */
  readonly logo?: Uint8Array | null;
}

/**
 * The report as a PDF on A4: text that can be selected, the language said, an outline by section, tags for readers that speak
 * the page, and the reasons drawn as vectors. It prints every line of the report and nothing else, but for why a
 * photograph is missing or small.
 */
export const reportPdf = async (report: Report, { made, photo, logo = null }: PdfOptions): Promise<Uint8Array> => {
  const photographs = await printedOf(
    photographsOf(report).map(({ hash }) => hash),
    photo,
  );
  const paper = new Paper({ title: `${report.title}: ${report.subtitle.text}`, language: report.language, made });
  if (report.letterhead !== undefined) writeLetterhead(paper, report.letterhead, logo);
  writeHead(paper, report);
  for (const section of report.sections) writeSection(paper, section, photographs);
  writeSignHere(paper);
  return paper.finish((number, of) => ({ left: report.foot.text, right: `Page ${number} of ${of}` }));
};

/** A place to sign, never torn from itself: each word before its rule, with room above for a hand. */
const writeSignHere = (paper: Paper): void => {
  const [gap, high, size] = [12, 21, 8];
  const share = [5, 3, 6];
  paper.keep(high);
  const y = paper.y + high - 3;
  const unit = (measure - gap * (signHere.length - 1)) / share.reduce((sum, one) => sum + one, 0);
  let at = 0;
  signHere.forEach((label, column) => {
    const [left, width] = [at, unit * (share[column] ?? 1)];
    paper.y = y - size;
    paper.drawn('P', () => paper.write(label, { at: left, width, size, colour: soft }));
    paper.ornament(() => {
      paper.doc
        .moveTo(page.left + left + label.length * size * 0.5 + 5, y)
        .lineTo(page.left + left + width, y)
        .lineWidth(0.6)
        .strokeColor(ink)
        .stroke();
    });
    at += width + gap;
  });
};

const photographsOf = (report: Report): readonly ReportPhotograph[] =>
  report.sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'photographs' ? block.photographs : [])));

/** The picture is never taller or wider than this. */
const logoBox = { width: 120, height: 48 };

/** Whose paper it is: the picture on the left, name and address on the right, a rule below. A picture that cannot be drawn is left out. */
const writeLetterhead = (paper: Paper, { name, lines, logo }: NonNullable<Report['letterhead']>, bytes: Uint8Array | null): void => {
  const top = paper.y;
  let bottom = top;
  if (logo !== null && bytes !== null) {
    const scale = Math.min(logoBox.width / logo.width, logoBox.height / logo.height);
    const draw = () => paper.doc.image(Buffer.from(bytes), page.left, top, { width: logo.width * scale, height: logo.height * scale });
    if (canBeDrawn(paper, bytes)) {
      paper.drawn('Figure', draw, undefined, { alt: name === '' ? 'The shop’s sign' : `The sign of ${name}` });
      bottom = top + logo.height * scale;
    }
  }
  paper.y = top;
  const width = measure - logoBox.width - 20;
  const setting = { at: logoBox.width + 20, width, align: 'right' } as const;
  if (name !== '') paper.drawn('P', () => paper.write(name, { ...setting, size: 12, cut: 'bold' }));
  for (const line of lines) if (line !== '') paper.drawn('P', () => paper.write(line, { ...setting, size: 8.5, colour: soft }));
  paper.y = Math.max(paper.y, bottom) + 6;
  const y = paper.y;
  paper.ornament(() => {
    paper.doc
      .moveTo(page.left, y)
      .lineTo(page.left + measure, y)
      .lineWidth(0.7)
      .strokeColor(soft)
      .stroke();
  });
  paper.y = y + 8;
};

/** Whether the printer can read the picture: a letterhead never takes the report down with it. */
const canBeDrawn = (paper: Paper, bytes: Uint8Array): boolean => {
  try {
    // The published types leave it out.
    (paper.doc as unknown as { openImage(of: Buffer): unknown }).openImage(Buffer.from(bytes));
    return true;
  } catch {
    return false;
  }
};

const writeHead = (paper: Paper, report: Report): void => {
  paper.drawn('P', () => paper.write(report.title, { size: 10, cut: 'bold', colour: soft }));
  paper.drawn('H1', () => paper.write(report.subtitle.text, { size: 19, cut: 'bold' }));
  paper.y += 3;
  // Two facts to a row, each a paragraph: label and value belong together when they are read out.
  const width = measure / 2 - 8;
  for (let i = 0; i < report.head.length; i += 2) {
    const top = paper.y;
    let lowest = top;
    report.head.slice(i, i + 2).forEach(({ label, line }, column) => {
      paper.y = top;
      const text = `${label}: ${line.text}`;
      paper.drawn('P', () => paper.write(text, { at: column * (measure / 2 + 4), width, size: 9.5 }));
      lowest = Math.max(lowest, paper.y);
    });
    paper.y = lowest + 1;
  }
  paper.y += 4;
  const top = paper.y;
  paper.y = top + 7;
  for (const { text } of report.brief) {
    paper.drawn('P', () => paper.write(text, { size: 11, cut: 'bold', at: 10, width: measure - 20 }));
    paper.y += 2;
  }
  const bottom = paper.y + 4;
  paper.ornament(() => {
    paper.doc
      .rect(page.left, top, measure, bottom - top)
      .lineWidth(1)
      .strokeColor(ink)
      .stroke();
  });
  paper.y = bottom + 4;
};

const writeSection = (paper: Paper, section: ReportSection, photographs: ReadonlyMap<string, Printed>): void => {
  // A heading is never the last thing on a page, and the cautions are not torn apart.
  paper.keep(26 + (section.id === 'cautions' ? listHeight(paper, section) : firstHeight(paper, section)));
  paper.y += 5;
  paper.part('Sect', (part) => {
    paper.drawn(
      'H2',
      () => {
        paper.doc.outline.addItem(section.heading);
        paper.write(section.heading, { size: 11.5, cut: 'bold' });
      },
      part,
    );
    paper.y += 2;
    const tickets = section.blocks.filter((block) => block.kind === 'ticket');
    for (const block of section.blocks) if (block.kind !== 'ticket') writeBlock(paper, block, part, photographs);
    if (tickets.length > 0) writeTickets(paper, tickets, part);
  });
};

const firstHeight = (paper: Paper, { blocks }: ReportSection): number => {
  const [first] = blocks;
  switch (first?.kind) {
    case undefined:
      return 0;
    // A long paragraph runs on over the page's end; some of it must stand below its heading.
    case 'paragraph':
      return Math.min(paper.heightOf(first.line.text), 60);
    case 'list':
      return Math.min(paper.heightOf(first.lines[0]?.text ?? '', { at: 14 }), 60);
    case 'ticket':
      return ticketsHeight(
        paper,
        blocks.filter((block) => block.kind === 'ticket'),
      ).height;
    case 'entries':
      return 24;
    case 'graph':
      return 120;
    case 'photographs':
      return photographHeight + 30;
  }
};

const listHeight = (paper: Paper, { blocks }: ReportSection): number =>
  blocks.reduce(
    (sum, block) =>
      sum + (block.kind === 'list' ? block.lines.reduce((all, { text }) => all + paper.heightOf(text, { at: 14 }) + 1.5, 0) : 0),
    0,
  );

const writeBlock = (
  paper: Paper,
  block: Exclude<ReportBlock, { kind: 'ticket' }>,
  part: Part,
  photographs: ReadonlyMap<string, Printed>,
): void => {
  switch (block.kind) {
    case 'paragraph':
      paper.keep(paper.heightOf(block.line.text));
      paper.drawn('P', () => paper.write(block.line.text), part);
      paper.y += 2.5;
      return;
    case 'list':
      writeList(paper, block.lines, part, block.numbered);
      return;
    case 'entries':
      writeEntries(paper, block.rows, part);
      return;
    case 'graph':
      writeGraph(paper, block, part);
      return;
    case 'photographs':
      writePhotographs(paper, block.photographs, part, photographs);
      return;
  }
};

interface Column {
  readonly at: number;
  readonly width: number;
}

const writeList = (
  paper: Paper,
  lines: readonly ReportLine[],
  under: Part,
  numbered: boolean,
  { at, width }: Column = { at: 0, width: measure },
): void => {
  paper.part(
    'L',
    (list) => {
      lines.forEach(({ text }, i) => {
        const column = { at: at + 14, width: width - 14 };
        paper.keep(paper.heightOf(text, column));
        const top = paper.y;
        paper.part(
          'LI',
          (item) => {
            paper.drawn('Lbl', () => paper.write(numbered ? `${i + 1}.` : '–', { at, width: 14, cut: numbered ? 'bold' : 'plain' }), item);
            paper.y = top;
            paper.drawn('LBody', () => paper.write(text, column), item);
          },
          list,
        );
        paper.y += 1.5;
      });
    },
    under,
  );
  paper.y += 1.5;
};

const writeEntries = (
  paper: Paper,
  rows: readonly { readonly head: string; readonly lines: readonly ReportLine[] }[],
  under: Part,
): void => {
  const column = { at: 104, width: measure - 104 };
  paper.part(
    'Table',
    (table) => {
      for (const { head, lines } of rows) {
        const text = lines.map((line) => line.text).join('; ');
        paper.keep(paper.heightOf(text, column) + 4);
        const top = paper.y + 1.5;
        paper.part(
          'TR',
          (row) => {
            paper.y = top;
            paper.drawn('TH', () => paper.write(head, { cut: 'bold', width: 100 }), row, { scope: 'Row' });
            paper.y = top;
            paper.drawn('TD', () => paper.write(text, column), row);
          },
          table,
        );
        paper.y += 1.5;
        paper.ornament(() => {
          paper.doc
            .moveTo(page.left, paper.y)
            .lineTo(page.left + measure, paper.y)
            .lineWidth(0.4)
            .strokeColor('#b5b5b0')
            .stroke();
        });
      }
    },
    under,
  );
  paper.y += 4;
};

/** Its letters are of 7 points at this width, and of 6 when it is drawn as small as it may be to end on the page it begins on. */
const graphWidth = 440;
const smallest = 0.84;

const writeGraph = (paper: Paper, { picture, caption }: Extract<ReportBlock, { kind: 'graph' }>, part: Part): void => {
  const below = paper.heightOf(caption.text, { size: 8.5 }) + 10;
  const whole = page.height - page.top - page.bottom - below;
  const full = Math.min(graphWidth / picture.width, whole / picture.height);
  const here = (paper.room - below) / picture.height;
  const scale = here >= full * smallest ? Math.min(full, here) : full;
  const height = picture.height * scale;
  paper.keep(height + below);
  const top = paper.y + 2;
  paper.drawn('Figure', () => drawGraph(paper, picture, page.left + (measure - picture.width * scale) / 2, top, scale), part, {
    alt: caption.text,
  });
  paper.y = top + height + 2;
  paper.drawn('Caption', () => paper.write(caption.text, { size: 8.5, cut: 'italic', colour: soft }), part);
  paper.y += 4;
};

type Tickets = readonly Extract<ReportBlock, { kind: 'ticket' }>[];
const ticketGap = 16;

/** Of the ticket's texts beside each other: how wide each is, and how tall the taller. */
const ticketsHeight = (paper: Paper, tickets: Tickets): { readonly width: number; readonly height: number } => {
  const width = (measure - ticketGap * (tickets.length - 1)) / tickets.length;
  const heights = tickets.map(
    ({ lines }) => 16 + lines.reduce((sum, { text }) => sum + paper.heightOf(text, { width: width - 30 }) + 1.5, 0),
  );
  return { width, height: Math.max(...heights) + 8 };
};

const writeTickets = (paper: Paper, tickets: Tickets, part: Part): void => {
  const { width, height } = ticketsHeight(paper, tickets);
  const beside = height <= page.height - page.top - page.bottom;
  if (beside) paper.keep(height);
  const top = paper.y;
  let lowest = top;
  tickets.forEach(({ title, lines }, i) => {
    const at = beside ? i * (width + ticketGap) : 0;
    const wide = beside ? width : measure;
    if (beside) paper.y = top;
    paper.y += 4;
    paper.drawn('H3', () => paper.write(title, { cut: 'bold', size: 9.5, at: at + 8, width: wide - 16 }), part);
    writeList(paper, lines, part, false, { at: at + 8, width: wide - 16 });
    if (beside) {
      paper.ornament(() => {
        paper.doc
          .rect(page.left + at, top, width, height)
          .lineWidth(i === 0 ? 1.2 : 0.7)
          .strokeColor(ink)
          .stroke();
      });
    }
    lowest = Math.max(lowest, paper.y);
  });
  paper.y = Math.max(lowest, beside ? top + height : lowest) + 4;
};

const photographHeight = 190;

/** Two to a row, each in its own proportions. */
const writePhotographs = (
  paper: Paper,
  photographs: readonly ReportPhotograph[],
  part: Part,
  bytes: ReadonlyMap<string, Printed>,
): void => {
  const width = (measure - 14) / 2;
  const tall = photographHeight;
  for (let i = 0; i < photographs.length; i += 2) {
    const row = photographs.slice(i, i + 2);
    const captionOf = ({ caption, hash }: ReportPhotograph) => [caption.text, bytes.get(hash)?.small ?? []].flat().join(' ');
    const captions = Math.max(...row.map((one) => paper.heightOf(captionOf(one), { size: 8.5, width })));
    paper.keep(tall + captions + 8);
    const top = paper.y + 2;
    row.forEach((photograph, column) => {
      const left = page.left + column * (width + 14);
      paper.drawn('Figure', () => drawPhotograph(paper, bytes.get(photograph.hash)?.file ?? null, left, top, width, tall), part, {
        alt: photograph.caption.text,
      });
      paper.y = top + tall + 2;
      paper.drawn('Caption', () => paper.write(captionOf(photograph), { size: 8.5, at: column * (width + 14), width }), part);
    });
    paper.y = top + tall + captions + 8;
  }
};

/** Draws it within its frame, or says in the frame why it cannot be drawn: a photograph never takes the report down with it. */
const drawPhotograph = (paper: Paper, bytes: PhotoFile | null, left: number, top: number, width: number, height: number): void => {
  const missing = whyNot(bytes);
  if (bytes !== null && missing === null) {
    try {
      paper.doc.image(Buffer.from(bytes.data), left, top, { fit: [width, height], valign: 'bottom' });
      return;
    } catch {
      // Fall through to the frame.
    }
  }
  paper.doc.rect(left, top, width, height).lineWidth(0.5).strokeColor(soft).stroke();
  paper.label(missing ?? 'The photograph cannot be read.', left + width / 2, top + height / 2, {
    size: 8.5,
    colour: soft,
    width: width - 16,
    align: 'center',
  });
};

const whyNot = (bytes: PhotoFile | null): string | null => {
  if (bytes === null) return 'The photograph is not kept any more.';
  return bytes.type === 'image/webp' ? 'A photograph kept as WebP, which a PDF cannot hold.' : null;
};
