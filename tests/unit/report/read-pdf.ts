import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface ReadPdf {
  readonly pages: number;
  readonly title: string;
  readonly language: string | null;
  readonly outline: readonly string[];
  /** Everything written on it, page by page. */
  readonly text: readonly string[];
  /** Roles of the structure tree in reading order, with what stands for a picture. */
  readonly tags: readonly { readonly role: string; readonly alt: string | null }[];
}

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly Node[];
}

/** Reads a PDF with pdf.js, a reader that shares no code with what wrote it. */
export const readPdf = async (bytes: Uint8Array): Promise<ReadPdf> => {
  // pdf.js takes the bytes away from whoever hands them over.
  const loading = getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false });
  const document = await loading.promise;
  const { info } = (await document.getMetadata()) as { info: { Title?: string; Language?: string | null } };
  const outline = ((await document.getOutline()) ?? []).map(({ title }) => title);
  const text: string[] = [];
  const tags: { role: string; alt: string | null }[] = [];
  const walk = (node: Node): void => {
    if (node.role !== undefined && node.role !== 'Root') tags.push({ role: node.role, alt: node.alt ?? null });
    for (const child of node.children ?? []) walk(child);
  };
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const content = await page.getTextContent();
    text.push(content.items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ''}` : '')).join(''));
    const tree = (await page.getStructTree()) as Node | null;
    if (tree !== null) walk(tree);
  }
  const pages = document.numPages;
  await loading.destroy();
  return { pages, title: info.Title ?? '', language: info.Language ?? null, outline, text, tags };
};

/** Without any white space: lines are broken where the paper ends, not where the words do. */
export const bare = (text: string): string => text.normalize('NFC').replace(/\s+/gu, '');
