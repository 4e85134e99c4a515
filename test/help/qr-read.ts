/** Reads QR codes back with a decoder that had no part in drawing them. */
import jsqr from 'jsqr';

// The decoder is CommonJS; its types put the function one level too deep.
const decode = (
  typeof jsqr === 'function' ? jsqr : (jsqr as unknown as { default: typeof jsqr.default }).default
) as typeof jsqr.default;

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/** Text of the code in a picture, or null. */
export const readQr = ({ data, width, height }: Pixels): string | null =>
  decode(data, width, height)?.data ?? null;

/** An SVG that is made of horizontal runs (`Mx yhNv1h-Nz`) as pixels. */
export function rasterise(svg: string, scale = 6): Pixels {
  const side = Number(/viewBox="0 0 (\d+) \d+"/.exec(svg)?.[1]);
  const [width, height] = [side * scale, side * scale];
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (const [, x, y, run] of svg.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let row = Number(y) * scale; row < (Number(y) + 1) * scale; row += 1) {
      for (let column = Number(x) * scale; column < (Number(x) + Number(run)) * scale; column += 1) {
        data.fill(0, (row * width + column) * 4, (row * width + column) * 4 + 3);
      }
    }
  }
  return { width, height, data };
}
