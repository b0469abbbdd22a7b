/** How a ticket looks on a label of 100 by 62 mm: black on white, and nothing runs over its edge. */
export const labelStyle = `
@page { size: 100mm 62mm; margin: 0; }
* { box-sizing: border-box; }
html { font: 10pt/1.2 sans-serif; color: #000; background: #fff; overflow-wrap: anywhere; }
body { margin: 0; }
.label { width: 100mm; height: 61.5mm; padding: 3mm 4mm; display: flex; flex-direction: column; justify-content: space-between; gap: 1.5mm; overflow: hidden; }
.top { display: flex; justify-content: space-between; gap: 2mm; }
.top svg { flex: none; margin: -1mm -1mm 0 0; }
.whose { min-width: 0; }
.name { font-weight: 700; line-height: 1.05; }
.title { margin-top: 1mm; display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 3; overflow: hidden; }
.mark { border: .5mm solid; padding: 0 1.5mm; }
.says { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 4; overflow: hidden; }
.bar { text-align: center; line-height: 0; }
@media screen { .label { outline: .3mm dashed; margin: 8mm; } }
`;
