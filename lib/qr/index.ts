/** A QR code (ISO/IEC 18004) as SVG, with the quiet zone of four modules that the standard asks for. Runs anywhere. */
import qrcode from "qrcode-generator";

/** @param label what is heard in its place */
export function qrDrawing(text: string, label = `QR code of ${text}`): string {
  const code = qrcode(0, "M");
  code.addData(text);
  code.make();
  const size = code.getModuleCount();
  let path = "";
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++)
      if (code.isDark(row, column)) path += `M${column + 4} ${row + 4}h1v1h-1z`;
  return `<svg viewBox="0 0 ${size + 8} ${size + 8}" role="img" aria-label="${label}" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h${size + 8}v${size + 8}H0z"/><path fill="#000" d="${path}"/></svg>`;
}
