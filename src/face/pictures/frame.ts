/** The two sizes pictures come in, and the measures every picture function takes. */

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

export interface PictureOptions {
  readonly size: PictureSize;
  readonly ascii: boolean;
}

/** Four of them and their gaps fit side by side in 60 columns. */
export const COMPACT: PictureSize = { width: 13, height: 6 };
export const LARGE: PictureSize = { width: 30, height: 10 };
