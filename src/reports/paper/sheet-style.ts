import type { Say } from '../../words/say.ts';
import type { PaperSize } from './sheet-matter.ts';

/**
 * How a sheet looks. Words are 12 pt and more, the names of steps 16 pt and more; all is black on white, so that any printer and any
 * copier does. No point is cut between two pages, and no heading is left alone at the foot of one.
 */
export const sheetStyle = (paper: PaperSize, say: Say): string => `
@page {
  size: ${paper};
  margin: 11mm 14mm 15mm;
  @bottom-right { content: "${say('page {page} of {pages}', { page: '" counter(page) "', pages: '" counter(pages) "' })}"; font: 11pt sans-serif; }
}
* { box-sizing: border-box; }
html { font: 12.5pt/1.35 sans-serif; color: #000; background: #fff; overflow-wrap: anywhere; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
body { margin: 0; }
p, ul, ol, pre, blockquote, figure { margin: 0 0 2mm; orphans: 3; widows: 3; }
pre { white-space: pre-wrap; }
b { font-weight: 700; }
.sheet { width: 100%; border-collapse: collapse; table-layout: fixed; }
.sheet > * > tr > td { padding: 0 .5mm; vertical-align: top; }
.sheet > thead { display: table-header-group; break-inside: avoid; }
.head { display: flex; justify-content: space-between; gap: 5mm; border-bottom: .6mm solid; padding: 1mm 0 1.5mm; margin-bottom: 3mm; font-size: 11pt; line-height: 1.3; }
.whose { min-width: 0; }
.head .name { font-size: 16pt; font-weight: 700; }
.head .title { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2; overflow: hidden; }
.codes { display: flex; align-items: center; flex: none; gap: 1mm; }
.codes svg { display: block; }
.mark { border: .5mm solid; padding: 0 1.5mm; white-space: nowrap; }
h1 { font-size: 20pt; line-height: 1.15; margin: 0 0 3mm; }
h2 { font-size: 17pt; line-height: 1.2; margin: 0; break-after: avoid; }
.front { margin-bottom: 4mm; }
.front h2 { margin-top: 3mm; }
.hold { border: 1mm solid; padding: 2mm 3mm; }
.reminds { border-top: .3mm solid; padding-top: 2mm; }
table:not(.sheet) { border-collapse: collapse; margin: 0 0 3mm; }
.facts th, .kit th { text-align: left; font-weight: 400; vertical-align: top; }
.facts th { padding-right: 5mm; width: 50mm; }
.facts td, .facts th { padding-bottom: 1mm; }
.facts code { font-size: 8.5pt; }
.kit { width: 100%; }
.kit td, .kit th, .explains td, .explains th, .front > table:not([class]) td { border-bottom: .2mm solid; padding: 1mm 3mm 1mm 0; }
.kit tr { break-inside: avoid; }
.kit tr:last-child { break-before: avoid; }
.n { text-align: right; }
.step { border-top: .6mm solid; padding-top: 2.5mm; margin-top: 5mm; }
.opening { break-inside: avoid; break-after: avoid; }
.number { display: inline-block; min-width: 9mm; }
.facts-of-step { display: flex; flex-wrap: wrap; column-gap: 6mm; margin: 1mm 0 2mm; align-items: baseline; }
.caution { display: grid; grid-template-columns: auto 1fr auto; column-gap: 4mm; align-items: center; border: .8mm solid; padding: 1.5mm 3mm; margin: 0 0 2mm; break-inside: avoid; break-after: avoid; }
.caution .word { font-size: 15pt; display: flex; align-items: center; gap: 2mm; }
.caution .says { white-space: pre-line; min-width: 0; }
.caution .read { max-width: 42mm; }
.sign { width: 11mm; height: 9.7mm; flex: none; }
.explains { margin: 0 0 2mm; }
.pictured { display: grid; grid-template-columns: 1fr 104mm; column-gap: 5mm; break-inside: avoid; break-after: avoid; }
figure { break-inside: avoid; }
figure img { display: block; width: 100%; height: 80mm; object-fit: contain; }
figcaption { font-size: 12pt; }
.point { break-inside: avoid; display: flex; flex-wrap: wrap; justify-content: space-between; gap: 1.2mm 6mm; padding: 1.6mm 0 1.8mm; border-top: .2mm solid; }
.asks { font-size: 14pt; }
.answers, .done-lines { display: flex; flex-wrap: wrap; gap: 2mm 7mm; align-items: baseline; max-width: 100%; }
.answer { break-inside: avoid; }
.set { font-weight: 700; }
.box { display: inline-block; width: 5.5mm; height: 5.5mm; border: .5mm solid; vertical-align: -1mm; text-align: center; line-height: 4.6mm; font-weight: 700; }
.limit { direction: ltr; unicode-bidi: isolate; }
.blank { display: inline-block; width: 17mm; height: 7mm; border-bottom: .4mm solid; margin-right: 1mm; }
.line { display: inline-block; width: 32mm; height: 7mm; border-bottom: .3mm solid; }
.line.long { width: 75mm; }
.option { display: inline-block; margin-right: 4mm; }
.value { margin-right: 2mm; }
.when { font-size: 12pt; }
.signature { display: inline-block; width: 72mm; border-top: .4mm solid; margin: 12mm 4mm 0 0; }
.done-lines { width: 100%; border-top: .2mm solid; padding-top: 1.5mm; break-inside: avoid; break-before: avoid; }
.end { border-top: .6mm solid; margin-top: 5mm; padding-top: 2.5mm; break-inside: avoid; }
.rule { border-bottom: .3mm solid; height: 9mm; }
@media screen { body { max-width: 190mm; margin: 8mm auto; padding: 0 8mm; } }
`;
