/** The rules of the sheet: black on white, lengths in mm, pages that never cut a row. */
import type { Paper } from './model.ts';

/** Room for print on both papers, mm: A4 is 210 by 297, US letter 215.9 by 279.4 (ISO 216; ANSI/ASME Y14.1). */
export const WIDTH = 184;
export const HEIGHT = 248;

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

/** `foot` stands at the foot of each page. */
export function sheetStyles(paper: Paper, foot: string): string {
  return `
@page{size:${SIZES[paper]} portrait;margin:13mm 13mm 16mm;
@bottom-left{content:${cssText(foot)};font:10.5pt sans-serif;color:#000}
@bottom-right{content:"Page " counter(page) " of " counter(pages);font:10.5pt sans-serif;color:#000}}
${RULES}`;
}

/** A string of CSS that can hold any text, also inside a style element. */
export function cssText(content: string): string {
  const letters = [...content].map((letter) => {
    const code = letter.codePointAt(0) ?? 0;
    if (code < 32) return ' ';
    return /[A-Za-z0-9 .,:;()\-–·]/.test(letter) ? letter : `\\${code.toString(16)} `;
  });
  return `"${letters.join('')}"`;
}

const RULES = `
*{box-sizing:border-box}
html{color-scheme:light;background:#fff;color:#000}
body{width:${WIDTH}mm;margin:0;font:10.5pt/1.3 "Atkinson Hyperlegible Next","Atkinson Hyperlegible",system-ui,sans-serif;
font-variant-numeric:tabular-nums}
h1{font-size:20pt;line-height:1.15;margin:0 0 2mm}
h2{font-size:14pt;margin:6mm 0 2mm;break-after:avoid}
h3{font-size:11.5pt;margin:4mm 0 1.5mm;break-after:avoid}
p,ul,dl{margin:0 0 2.5mm}
p,li{orphans:3;widows:3}
ul{padding-left:5mm}
.page{break-before:page}
.page:first-child{break-before:auto}
.page>h2:first-child{margin-top:0}
table{width:100%;border-collapse:collapse;margin:0 0 3mm}
thead{display:table-header-group}
tr{break-inside:avoid}
th,td{text-align:left;vertical-align:top;padding:1mm 1.5mm;border:0.25mm solid #000;overflow-wrap:anywhere}
thead th{border-bottom-width:0.6mm}
.over th{border-top-width:0.6mm;background:#eee;break-after:avoid}
tr.over{break-after:avoid}
.outputs{table-layout:fixed}
.outputs thead th:nth-child(1){width:19mm}
.outputs thead th:nth-child(2){width:38mm}
.outputs thead th:nth-child(3){width:25mm}
.outputs thead th:nth-child(4){width:36mm}
.outputs thead th:nth-child(5){width:35mm}
.inputs{table-layout:fixed}
.inputs thead th:nth-child(1){width:19mm}
.cuts{table-layout:fixed}
.cuts thead th:nth-child(1){width:12mm}
.cuts thead th:nth-child(2){width:16mm}
.cuts thead th:nth-child(3){width:36mm}
.cuts thead th:nth-child(4){width:20mm}
.cuts thead th:nth-child(5){width:36mm}
.parts{table-layout:fixed}
.parts thead th:nth-child(1){width:17mm}
.parts thead th:nth-child(2){width:82mm}
.title{display:grid;grid-template-columns:max-content 1fr;gap:0.6mm 4mm;margin:0 0 3mm}
.title dt{font-weight:700}
.title dd{margin:0;overflow-wrap:anywhere}
.cautions{border:0.6mm solid #000;padding:2.5mm 3mm;margin:0 0 4mm;break-inside:avoid}
.cautions p{font-weight:700;margin:0 0 1mm}
.cautions ul{margin:0}
figure{margin:0 0 4mm;break-inside:avoid}
figcaption{break-after:avoid;margin:0 0 1.5mm}
svg{display:block;overflow:visible}
svg text{font-family:inherit;fill:#000}
.line{stroke:#000;stroke-width:0.25;fill:none}
.wire{stroke:#000;stroke-width:0.5;fill:none}
.solid{fill:#000}
.hollow{fill:#fff;stroke:#000;stroke-width:0.3}
.cutline{stroke:#000;stroke-width:0.25;stroke-dasharray:1.2 1;fill:none}
.bold{font-weight:700}
.labels{display:grid;grid-template-columns:repeat(3,1fr);margin:0 0 4mm;padding:0 0.25mm 0 0;list-style:none}
.labels li{border:0.25mm dashed #000;margin:0 -0.25mm -0.25mm 0;padding:1.2mm 2mm;min-height:13mm;break-inside:avoid;
overflow-wrap:anywhere;line-height:1.25}
@media screen{body{padding:8mm;width:${WIDTH + 16}mm}}
`;
