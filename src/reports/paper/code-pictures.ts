import { BAR_QUIET, code128Modules } from './code-128.ts';
import { type Html, html, nothing } from './html.ts';
import { qrModules } from './qr-code.ts';

/** The QR code of a text with its quiet zone, `side` millimetres wide. */
export function qrPicture(text: string, side: number): Html {
  const rows = qrModules(text);
  const size = rows.length;
  const path = rows.map((row, y) => runs(row).map(([x, width]) => `M${x} ${y}h${width}v1h-${width}z`));
  return html`<svg class="qr" width="${side}mm" height="${side}mm" viewBox="0 0 ${size} ${size}" shape-rendering="crispEdges" role="img" aria-label="${text}"><path d="${path.flat().join('')}"/></svg>`;
}

/**
 * The Code 128 of a text with its quiet zones, at most `widest` millimetres wide. Nothing where its bars would be too thin to be printed
 * and read, or where the text has letters that it cannot say: there the QR code is what is scanned.
 */
export function barPicture(text: string, widest: number, height: number): Html {
  const modules = code128Modules(text);
  if (!modules) return nothing;
  const size = modules.length + 2 * BAR_QUIET;
  const module = Math.min(WIDEST_MODULE, widest / size);
  if (module < THINNEST_MODULE) return nothing;
  const path = runs(modules).map(([x, width]) => `M${x + BAR_QUIET} 0h${width}v1h-${width}z`);
  return html`<svg class="bars" width="${(size * module).toFixed(2)}mm" height="${height}mm" viewBox="0 0 ${size} 1" preserveAspectRatio="none" shape-rendering="crispEdges" role="img" aria-label="${text}"><path d="${path.join('')}"/></svg>`;
}

/** Millimetres of one module. Thinner ones run together on an office printer; common practice, no source. */
const THINNEST_MODULE = 0.19;
const WIDEST_MODULE = 0.5;

/** Where each run of dark modules begins, and how long it is. */
function runs(modules: readonly boolean[]): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  for (const [at, isDark] of modules.entries()) {
    const last = found.at(-1);
    if (!isDark) continue;
    if (last && last[0] + last[1] === at) last[1] += 1;
    else found.push([at, 1]);
  }
  return found;
}
