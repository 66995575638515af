import PDFDocument from 'pdfkit';
import { type Cut, fontFile, type Run, runsOf, type Script } from './typeface.ts';

/** A structure element of the tagged PDF: what a reader that speaks the page is told. */
export type Part = ReturnType<PDFKit.PDFDocument['struct']>;

/** All lengths are points (1/72 inch); y runs down the page. */
export const page = { width: 595.28, height: 841.89, left: 45, right: 45, top: 42, bottom: 54 } as const;
export const measure = page.width - page.left - page.right;
const lowest = page.height - page.bottom;

export interface Setting {
  readonly cut?: Cut;
  readonly size?: number;
  readonly colour?: string;
  /** From the left margin. */
  readonly at?: number;
  readonly width?: number;
  readonly align?: 'left' | 'right' | 'center';
}

export const ink = '#1b1f23';
export const soft = '#4a5056';

/** Added between lines: the font's own spacing is generous. */
const leading = (size: number): number => -0.04 * size;

interface Facts {
  readonly title: string;
  readonly language: string;
  readonly made: Date;
}

/** An A4 document in the making, tagged for readers that speak it (PDF/UA), with the letters set from one embedded open font. */
export class Paper {
  readonly doc: PDFKit.PDFDocument;
  readonly #root: Part;
  readonly #chunks: Buffer[] = [];
  readonly #ended: Promise<void>;
  readonly #fonts = new Set<string>();

  constructor({ title, language, made }: Facts) {
    this.doc = new PDFDocument({
      size: 'A4',
      margins: { top: page.top, bottom: page.bottom, left: page.left, right: page.right },
      pdfVersion: '1.7',
      // The published types know only the PDF/A subsets.
      ...({ subset: 'PDF/UA' } as object),
      tagged: true,
      lang: language,
      displayTitle: true,
      bufferPages: true,
      info: { Title: title, Creator: 'Kinplate', CreationDate: made },
      // Without this pdfkit sets up one of the standard fonts, which PDF/UA does not allow: they are not embedded.
      font: fontFile('plain', 'latin'),
    });
    this.#ended = new Promise((resolve, reject) => {
      this.doc.on('data', (chunk: Buffer) => this.#chunks.push(chunk));
      this.doc.once('end', resolve);
      this.doc.once('error', reject);
    });
    this.#root = this.doc.struct('Document');
    this.doc.addStructure(this.#root);
  }

  /** A part of the document under another (the whole, unless said), with what `make` puts into it. */
  part(
    type: string,
    make: (part: Part) => void,
    under: Part = this.#root,
    options: { readonly alt?: string; readonly scope?: string } = {},
  ): void {
    const part = this.doc.struct(type, options as object);
    under.add(part);
    make(part);
    part.end();
  }

  /** A part that is drawn: everything `draw` puts on paper belongs to it. */
  drawn(type: string, draw: () => void, under: Part = this.#root, options: { readonly alt?: string; readonly scope?: string } = {}): void {
    this.part(type, (part) => part.add(draw), under, options);
  }

  /** Rules and frames: nothing a reader needs to be told. */
  ornament(draw: () => void): void {
    this.doc.markContent('Artifact', { type: 'Layout' });
    draw();
    this.doc.endMarkedContent();
  }

  get y(): number {
    return this.doc.y;
  }
  set y(y: number) {
    this.doc.x = page.left;
    this.doc.y = y;
  }
  get room(): number {
    return lowest - this.doc.y;
  }

  /** Begins a new page unless so much room is left; what is taller than a page begins where it is and runs on. */
  keep(height: number): void {
    if (height > this.room && height <= lowest - page.top) this.breakPage();
  }
  breakPage(): void {
    this.doc.addPage();
    this.doc.x = page.left;
  }

  /** Sets a text at the current height and moves below it. */
  write(text: string, { cut = 'plain', size = 9.5, colour = ink, at = 0, width = measure - at, align = 'left' }: Setting = {}): void {
    const runs = runsOf(text);
    this.doc.x = page.left + at;
    runs.forEach((run, i) => {
      this.#set(cut, run, size);
      const options = { width, align, lineGap: leading(size), continued: i < runs.length - 1 };
      this.doc.fillColor(colour).text(run.text, options);
    });
    this.doc.x = page.left;
  }

  /** How tall a text would be. */
  heightOf(text: string, { cut = 'plain', size = 9.5, at = 0, width = measure - at }: Setting = {}): number {
    const runs = runsOf(text);
    this.#set(cut, runs[0] as Run, size);
    return this.doc.heightOfString(runs.map((run) => run.text).join(''), { width, lineGap: leading(size) });
  }

  /** One line at a fixed place, made smaller where it would be wider than its box. `x` is its left edge, middle or right edge. */
  label(
    text: string,
    x: number,
    y: number,
    { cut = 'plain', size = 8, colour = ink, width, align = 'left' }: Setting & { width: number },
  ): void {
    const runs = runsOf(text);
    const wide = runs.reduce((sum, run) => {
      this.#set(cut, run, size);
      return sum + this.doc.widthOfString(run.text);
    }, 0);
    const fit = Math.min(1, width / Math.max(wide, 0.01));
    let left = align === 'center' ? x - (wide * fit) / 2 : align === 'right' ? x - wide * fit : x;
    for (const run of runs) {
      this.#set(cut, run, size * fit);
      this.doc.fillColor(colour).text(run.text, left, y - size * fit * 0.62, { lineBreak: false });
      left += this.doc.widthOfString(run.text);
    }
    this.doc.x = page.left;
  }

  #set(cut: Cut, { script }: { readonly script: Script }, size: number): void {
    const name = `${cut} ${script}`;
    if (!this.#fonts.has(name)) {
      this.doc.registerFont(name, fontFile(cut, script));
      this.#fonts.add(name);
    }
    this.doc.font(name).fontSize(size);
  }

  /** Writes the foot of every page and ends the document. */
  async finish(foot: (page: number, of: number) => { readonly left: string; readonly right: string }): Promise<Uint8Array> {
    this.#root.end();
    const { count } = this.doc.bufferedPageRange();
    for (let number = 0; number < count; number += 1) {
      this.doc.switchToPage(number);
      // Text below the margin would otherwise begin a page of its own.
      this.doc.page.margins.bottom = 0;
      const { left, right } = foot(number + 1, count);
      this.doc.markContent('Artifact', { type: 'Pagination', attached: ['Bottom'] });
      const y = page.height - 30;
      this.doc
        .moveTo(page.left, y - 10)
        .lineTo(page.width - page.right, y - 10)
        .lineWidth(0.5)
        .strokeColor(soft)
        .stroke();
      this.label(left, page.left, y, { size: 8, colour: soft, width: measure - 80 });
      this.label(right, page.width - page.right, y, { size: 8, colour: soft, width: 70, align: 'right' });
      this.doc.endMarkedContent();
    }
    this.doc.end();
    await this.#ended;
    return new Uint8Array(Buffer.concat(this.#chunks));
  }
}
