/** Style sheet of the report: one column on a screen, A4 in print. No fonts or pictures from elsewhere. */

import {FONT_FAMILY} from "./charts/index.ts";
import {cssString} from "./html.ts";
import {ACCENT, GRID, INK, MUTED} from "./palette.ts";

/** @param footer left and right text at the foot of every printed page, and the running head */
export function styleSheet(footer: {readonly head: string; readonly foot: string}): string {
  return `
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: #eef1f3; color: ${INK}; font: 15px/1.5 ${FONT_FAMILY}; }
main { max-width: 780px; margin: 0 auto; padding: 40px 50px 56px; background: white; }
h1 { font-size: 28px; line-height: 1.2; margin: 4px 0 6px; letter-spacing: -0.01em; }
h2 { font-size: 19px; margin: 40px 0 8px; padding-top: 10px; border-top: 2px solid ${ACCENT}; color: ${ACCENT}; }
h3 { font-size: 15px; margin: 22px 0 6px; }
p { margin: 0 0 9px; }
.kicker { color: ${ACCENT}; font-weight: 600; margin: 0; letter-spacing: 0.02em; }
.meta { color: ${MUTED}; font-size: 13px; margin-bottom: 20px; overflow-wrap: anywhere; }
.answer { border-left: 5px solid ${ACCENT}; background: #eef6f6; padding: 14px 18px 10px; margin: 0 0 22px; }
.answer .headline { font-size: 19px; line-height: 1.38; font-weight: 600; margin-bottom: 8px; }
.answer p { margin-bottom: 5px; }
.caution { border: 1px solid #c9a24a; background: #fdf8ea; padding: 10px 14px 4px; font-size: 13.5px; margin: 12px 0 0; }
.caution p { margin-bottom: 6px; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 13.5px; font-variant-numeric: tabular-nums; }
th, td { padding: 4px 8px; text-align: left; vertical-align: top; border-bottom: 1px solid ${GRID}; }
thead th { border-bottom: 1.5px solid ${INK}; font-weight: 600; vertical-align: bottom; }
th small, td small { font-weight: 400; color: ${MUTED}; font-size: 12px; }
sup { font-size: 72%; line-height: 0; vertical-align: 0.45em; }
sub { line-height: 0; }
td.n, th.n { text-align: right; white-space: nowrap; }
tbody th { font-weight: 400; }
.inputs tbody th { min-width: 130px; }
tr.group th { font-weight: 700; padding-top: 12px; border-bottom: 1px solid ${INK}; }
tr.group th small { font-weight: 400; }
tr.governs > * { font-weight: 700; background: #e3f1f1; }
.mark { color: ${ACCENT}; font-weight: 700; white-space: nowrap; }
caption, figcaption { text-align: left; color: ${INK}; font-size: 13px; line-height: 1.42; }
caption { caption-side: top; padding: 0 0 6px; }
.notes { font-size: 12.5px; color: ${MUTED}; margin: 8px 0 0; padding-left: 20px; }
.notes + p { margin-top: 12px; }
figure { margin: 18px 0 24px; }
figure svg { display: block; max-width: 100%; height: auto; }
figure .wide svg { min-width: 560px; }
figure .fit svg { width: 100%; }
.legend { display: flex; flex-wrap: wrap; gap: 2px 18px; font-size: 13px; margin: 0 0 4px; }
figcaption { margin-top: 8px; }
figcaption b { color: ${ACCENT}; }
.panels { display: grid; grid-template-columns: repeat(auto-fit, minmax(290px, 1fr)); gap: 12px 20px; }
figure h4 { font-size: 14px; margin: 0 0 6px; }
.panel h4 { font-size: 12.5px; font-weight: 600; color: ${MUTED}; margin: 0 0 4px; }
.equation { display: flex; align-items: center; justify-content: space-between; gap: 16px; margin: 12px 0 4px; padding-left: 18px; overflow-x: auto; }
.equation math { font-size: 16.5px; font-family: "Cambria Math", "STIX Two Math", "Latin Modern Math", "Noto Sans Math", math; }
.equation span { color: ${MUTED}; }
.where { color: ${INK}; font-size: 13.5px; margin: 0 0 14px; padding-left: 18px; }
ol.references { padding-left: 22px; font-size: 13.5px; }
ol.references li { margin-bottom: 4px; overflow-wrap: anywhere; }
pre { font: 11.5px/1.45 "Cascadia Mono", Menlo, Consolas, "Liberation Mono", monospace; white-space: pre-wrap; overflow-wrap: anywhere; background: #f5f7f8; padding: 12px 14px; margin: 0 0 14px; }
@media (max-width: 600px) {
  main { padding: 22px 16px 36px; }
  h1 { font-size: 23px; }
  .answer .headline { font-size: 17px; }
  .scroll table { min-width: 460px; }
  .scroll table.result { min-width: 0; }
  table.result th, table.result td { padding: 4px; }
  table.result .spare { display: none; }
}
@page {
  size: A4;
  margin: 20mm 16mm 19mm;
  @top-left { content: ${cssString(footer.head)}; font: 8pt ${FONT_FAMILY}; color: ${MUTED}; }
  @bottom-left { content: ${cssString(footer.foot)}; font: 8pt ${FONT_FAMILY}; color: ${MUTED}; }
  @bottom-right { content: counter(page) " / " counter(pages); font: 8pt ${FONT_FAMILY}; color: ${MUTED}; }
}
@media print {
  body { background: white; font-size: 9.6pt; line-height: 1.42; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 20pt; }
  h2 { font-size: 13pt; margin-top: 22pt; break-after: avoid; }
  h3 { font-size: 10.2pt; break-after: avoid; }
  .lead { break-after: avoid; }
  .answer .headline { font-size: 13pt; }
  table, .caution, figcaption, caption, .where, ol.references { font-size: 8.6pt; }
  .notes, th small, td small, .meta { font-size: 8pt; }
  .scroll, .equation { overflow: visible; }
  figure, .caution, .answer, .equation, tr, .keep { break-inside: avoid; }
  figure .wide svg { min-width: 0; width: 100%; }
  figure .fit svg { width: 560px; }
  .panels { grid-template-columns: repeat(2, 1fr); }
  .equation { break-after: avoid; }
  thead { display: table-header-group; }
  p, li { orphans: 3; widows: 3; }
  pre { font-size: 7.6pt; }
}
`.replaceAll("</", "<\\/");
}
