import { limits } from '../../reasoner/plain/limits.ts';
import { done, failed, type Outcome, trouble } from '../trouble.ts';
import { type Cleaned, DamagedPicture, NoStillPicture } from './cleaned.ts';
import { cleanJpeg } from './jpeg.ts';
import { cleanPng, pngSignature } from './png.ts';
import { cleanWebp } from './webp.ts';

export const mostPhotoBytes = limits.photoBytes;

/**
 * A photograph as it may be stored: JPEG, PNG or WebP, whole, and freed of everything but the picture, its orientation and its dates.
 * Its own code rather than a library: those that write metadata either decode the picture and write it anew, which would change it, or
 * remove what they know and leave what they do not.
 * Troubles: `photo-too-large`, `photo-unreadable` (another kind of file, or none), `photo-damaged`.
 */
export const cleanPhoto = (file: Buffer, name: string): Outcome<Cleaned> => {
  if (file.length > mostPhotoBytes) return tooLarge(name, file.length);
  const clean = cleanerOf(file);
  if (clean === null) return unreadable(name, beginningOf(file));
  try {
    const cleaned = clean(file);
    if (cleaned.width === 0 || cleaned.height === 0) throw new DamagedPicture('it is no pixel wide or high');
    if (cleaned.width * cleaned.height > limits.photoPixels)
      return failed(
        trouble(
          'photo-too-large',
          name,
          `${name} has ${cleaned.width} × ${cleaned.height} pixels; the most is ${limits.photoPixels / 1_000_000} million. Save it smaller and add that.`,
        ),
      );
    const { width, height, fewestBytes, dataBytes } = cleaned;
    if (dataBytes < fewestBytes)
      throw new DamagedPicture(`it says that it is ${width} × ${height} pixels, which ${dataBytes} bytes cannot hold`);
    return done(cleaned);
  } catch (error) {
    if (error instanceof NoStillPicture) return unreadable(name, error.message);
    // A length that points past the end of a header reads as RangeError; both mean the file does not hang together.
    if (!(error instanceof DamagedPicture || error instanceof RangeError)) throw error;
    const what = error instanceof DamagedPicture ? error.message : 'it is cut short';
    return failed(trouble('photo-damaged', name, `${name} is damaged: ${what}. Nothing was kept of it.`));
  }
};

const unreadable = (name: string, found: string) =>
  failed(
    trouble('photo-unreadable', name, `${name} is no photograph Kinplate can keep: found ${found}, expected a still JPEG, PNG or WebP.`),
  );

const tooLarge = (name: string, bytes: number) =>
  failed(
    trouble(
      'photo-too-large',
      name,
      `${name} is ${(bytes / 1_048_576).toFixed(1)} MiB; the most is ${mostPhotoBytes / 1_048_576} MiB. Save it smaller and add that.`,
    ),
  );

const cleanerOf = (file: Buffer): ((file: Buffer) => Cleaned) | null => {
  if (file.length >= 3 && file[0] === 0xff && file[1] === 0xd8 && file[2] === 0xff) return cleanJpeg;
  if (file.subarray(0, 8).equals(pngSignature)) return cleanPng;
  if (file.toString('latin1', 0, 4) === 'RIFF' && file.toString('latin1', 8, 12) === 'WEBP') return cleanWebp;
  return null;
};

const beginningOf = (file: Buffer): string =>
  file.length === 0
    ? 'an empty file'
    : `a file that begins with the bytes ${file
        .subarray(0, 4)
        .toString('hex')
        .replace(/(..)(?=.)/g, '$1 ')}`;
