/** A few words of MathML, enough for the equations of the report. Arguments are our own symbols, not user text. */

import {type Html, html} from "./html.ts";

export type Maths = Html;

/** Identifier; one letter is set in italics by the browser, more letters upright. */
export const i = (name: string): Maths => html`<mi>${name}</mi>`;
export const n = (number: string): Maths => html`<mn>${number}</mn>`;
export const o = (operator: string): Maths => html`<mo>${operator}</mo>`;
export const row = (...parts: Maths[]): Maths => html`<mrow>${parts}</mrow>`;
export const sub = (base: Maths, below: Maths): Maths => html`<msub>${base}${below}</msub>`;
export const sup = (base: Maths, above: Maths): Maths => html`<msup>${base}${above}</msup>`;
export const subsup = (base: Maths, below: Maths, above: Maths): Maths =>
  html`<msubsup>${base}${below}${above}</msubsup>`;
export const fraction = (top: Maths, bottom: Maths): Maths => html`<mfrac>${top}${bottom}</mfrac>`;
export const root = (...parts: Maths[]): Maths => html`<msqrt>${parts}</msqrt>`;
export const sum = (below: Maths): Maths => html`<munder><mo>∑</mo>${below}</munder>`;
export const integral = (from: Maths, to: Maths): Maths => html`<msubsup><mo>∫</mo>${from}${to}</msubsup>`;
export const round = (...parts: Maths[]): Maths => row(o("("), ...parts, o(")"));
export const mean = (...parts: Maths[]): Maths => row(o("⟨"), ...parts, o("⟩"));

/** Space between two statements on one line. */
export const gap: Maths = html`<mspace width="1em"></mspace>`;

/** A numbered equation on its own line. */
export function display(number: number, ...parts: Maths[]): Html {
  return html`<div class="equation"><math display="block">${row(...parts)}</math><span>(${number})</span></div>`;
}
