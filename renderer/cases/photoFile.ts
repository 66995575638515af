import { base64Of, bytesOf } from '../bridge/base64.ts';
import { sayBytes } from '../values/figures.ts';

/** A photograph on its way to the desk: its bytes as they are, and a small picture of it. */
export interface PhotoFile {
  readonly name: string;
  readonly data: string;
  readonly thumbnail: string;
}

export type ReadFile = { readonly ok: true; readonly file: PhotoFile } | { readonly ok: false; readonly sentence: string };

/** As the desk has it (10 MiB); said here too, so that nothing larger is read into memory only to be refused. */
const mostBytes = 10 * 1024 * 1024;
const kinds = ['image/jpeg', 'image/png', 'image/webp'];
const longestSide = 320;

/** Reads a picked, pasted or dropped file and draws its thumbnail. What cannot be drawn is damaged, whatever its name says. */
export async function readPhotoFile(file: File): Promise<ReadFile> {
  const name = file.name === '' ? 'pasted picture' : file.name;
  if (!kinds.includes(file.type))
    return {
      ok: false,
      sentence: `${name} was left out: found ${file.type === '' ? 'a file of no known kind' : file.type}, expected JPEG, PNG or WebP.`,
    };
  if (file.size > mostBytes)
    return {
      ok: false,
      sentence: `${name} was left out: it is ${sayBytes(file.size)}, and the most is 10 MiB. Save it smaller and add that.`,
    };
  try {
    const picture = await createImageBitmap(file);
    const small = await smallOf(picture);
    picture.close();
    return { ok: true, file: { name: name.slice(0, 300), data: await base64Of(file), thumbnail: await base64Of(small) } };
  } catch {
    return { ok: false, sentence: `${name} was left out: it is damaged and cannot be drawn.` };
  }
}

const smallOf = async (picture: ImageBitmap): Promise<Blob> => {
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('no canvas to draw on');
  // JPEG knows no transparency; paper lies under it.
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const small = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.8));
  if (small === null) throw new Error('the small picture could not be made');
  return small;
};

/** Bytes that came over the bridge, as an address an `img` can show; it holds them until it is revoked. */
export const addressOf = (type: string, data: string): string => URL.createObjectURL(new Blob([bytesOf(data)], { type }));

/** Picture files among what was dropped or pasted. */
export const picturesIn = (from: DataTransfer | null): File[] => [...(from?.files ?? [])];
