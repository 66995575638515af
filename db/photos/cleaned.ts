import type { PhotoType } from '../shop/case.ts';

/** A picture file with nothing in it but the picture, which way up it is, and when it was taken. */
export interface Cleaned {
  readonly type: PhotoType;
  /** In pixels, as stored. */
  readonly width: number;
  readonly height: number;
  /** Bytes of its coded pixels, and the fewest that could hold so many: a header may claim anything. */
  readonly dataBytes: number;
  readonly fewestBytes: number;
  readonly bytes: Buffer;
}

/** Says of a file that it does not hang together: where it broke off and why. It becomes a trouble at the door. */
export class DamagedPicture extends Error {
  constructor(what: string) {
    super(what);
    this.name = 'DamagedPicture';
  }
}

/** A whole file of the right kind that is still no photograph. */
export class NoStillPicture extends Error {
  constructor(what: string) {
    super(what);
    this.name = 'NoStillPicture';
  }
}
