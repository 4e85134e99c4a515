/**
 * A short text as a QR code (ISO/IEC 18004), drawn as one SVG path. Level M survives about 15 % of damage,
 * which a label in a moist room will get.
 */
import qrcode from 'qrcode-generator';

/** Light modules that the standard asks for on every side. */
const QUIET = 4;

/** An inline SVG element; `title` is read out by screen readers. The text must be plain ASCII. */
export function qrSvg(text: string): string {
  if (!/^[\x20-\x7e]{1,60}$/.test(text))
    throw new RangeError('A QR code here holds 1 to 60 plain characters.');
  const code = qrcode(0, 'M');
  code.addData(text);
  code.make();
  const count = code.getModuleCount();
  let path = '';
  for (let row = 0; row < count; row += 1) {
    for (let column = 0; column < count; column += 1) {
      if (!code.isDark(row, column)) continue;
      let length = 1;
      while (column + length < count && code.isDark(row, column + length)) length += 1;
      path += `M${column + QUIET} ${row + QUIET}h${length}v1h-${length}z`;
      column += length - 1;
    }
  }
  const side = count + 2 * QUIET;
  return `<svg class="qr" viewBox="0 0 ${side} ${side}" shape-rendering="crispEdges" role="img" aria-label="QR code"><path d="M0 0h${side}v${side}h-${side}z" fill="#fff"/><path d="${path}" fill="#000"/></svg>`;
}
