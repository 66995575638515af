/** Files somebody chose, read as the desk wants them; what was left alone is named, since it may have been meant. */
export interface HandedIn {
  readonly files: readonly { readonly name: string; readonly text: string | null }[];
  readonly leftAlone: readonly string[];
}

/** The bridge carries 16 MiB in one call; the rest is room for how JSON writes letters. */
export const mostBytes = 10 * 1024 * 1024;

export const totalBytes = (files: Iterable<File>): number => [...files].reduce((sum, { size }) => sum + size, 0);

/** Sheet files and tables are known by their names. Bytes that are no UTF-8 are handed on as such, never with letters changed. */
export async function handedIn(chosen: Iterable<File>): Promise<HandedIn> {
  const all = [...chosen].map((file) => ({ file, name: file.webkitRelativePath === '' ? file.name : file.webkitRelativePath }));
  const isSheet = ({ name }: { readonly name: string }) => /\.(json|csv)$/i.test(name);
  const files = await Promise.all(all.filter(isSheet).map(async ({ file, name }) => ({ name, text: await textOf(file) })));
  return {
    files: files.sort((a, b) => (a.name < b.name ? -1 : 1)),
    leftAlone: all.filter((one) => !isSheet(one)).map(({ name }) => name),
  };
}

const textOf = async (file: File): Promise<string | null> => {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return null;
  }
};
