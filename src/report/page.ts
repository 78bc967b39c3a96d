/** The frame of every report: one HTML file that stands alone and prints on A4. */

import type {ChartDocument} from "./charts/index.ts";
import {type Html, html} from "./html.ts";
import {styleSheet} from "./style.ts";

export interface ReportContext {
  readonly document: ChartDocument; // draws the figures; a browser's or linkedom's
  readonly software: string; // version
  readonly inputHash: string;
  readonly date: string; // as it is to be printed
  readonly sources: Readonly<Record<string, string>>; // input documents, name → text, printed as an appendix
  readonly warnings: readonly string[]; // of the reading of the input; those of the engine are in the result
}

export interface Page {
  readonly name: string; // of what is reported
  readonly title: string; // of the browser's tab
  readonly kicker: string; // above the name
  readonly context: ReportContext;
  readonly answer: {readonly headline: string; readonly details: readonly string[]};
  readonly parts: readonly (Html | null)[];
}

/** The whole report as text of an HTML document. */
export function page({name, title, kicker, context, answer, parts}: Page): string {
  const {software, inputHash, date} = context;
  const style = styleSheet({head: name, foot: `Seamwright ${software} · input ${inputHash.slice(0, 12)} · ${date}`});
  return `<!DOCTYPE html>\n${html`<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="Seamwright ${software}">
<title>${title}</title>
<style>${html.unsafe(style)}</style>
</head>
<body><main>
<header>
<p class="kicker">${kicker}</p>
<h1>${name}</h1>
<p class="meta">${date} · Seamwright ${software} · input ${inputHash}</p>
</header>
<section class="answer" aria-label="Answer"><p class="headline">${answer.headline}</p>${answer.details.map(d => html`<p>${d}</p>`)}</section>
${parts}
</main></body>
</html>
`}`;
}

/** A section that lists sentences, or says that there are none. */
export function listPart(title: string, lines: readonly string[]): Html {
  return html`<section><h2>${title}</h2>${lines.length ? html`<ul>${lines.map(l => html`<li>${l}</li>`)}</ul>` : html`<p>None.</p>`}</section>`;
}

export function sourcesPart({sources}: ReportContext): Html | null {
  const documents = Object.entries(sources);
  if (documents.length === 0) return null;
  return html`<section><h2>Input documents</h2>${documents.map(([name, text]) => html`<h3>${name}</h3><pre>${text}</pre>`)}</section>`;
}
