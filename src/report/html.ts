/**
 * Markup by tagged template: every interpolated value is escaped unless it is itself Html.
 *
 *   html`<p title="${title}">${text}</p>`
 *
 * Values are safe as element content and inside double-quoted attributes; nowhere else (never in <style> or a tag name).
 */

const markup: unique symbol = Symbol("markup");

/** Markup that is already safe. Only `html` and `html.unsafe` make one. */
export interface Html {
  readonly [markup]: string;
  toString(): string;
}

/** What a template accepts. null, undefined and false leave nothing; a list is joined without a separator. */
export type HtmlValue = Html | string | number | null | undefined | false | readonly HtmlValue[];

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** The text with the five characters that mean something in markup replaced. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, character => ENTITIES[character]!);
}

/** A CSS string literal, quotes included, safe inside a <style> element. */
export function cssString(text: string): string {
  return `"${text.replace(/[^\p{L}\p{N} .,:;()/+–-]/gu, c => `\\${c.codePointAt(0)!.toString(16)} `).replaceAll("</", "<\\/")}"`;
}

function wrap(text: string): Html {
  return Object.freeze({[markup]: text, toString: () => text});
}

function isHtml(value: object): value is Html {
  return markup in value;
}

function render(value: HtmlValue): string {
  if (value === null || value === undefined || value === false) return "";
  if (typeof value === "string") return escapeHtml(value);
  if (typeof value === "number") return escapeHtml(String(value));
  return isHtml(value) ? value[markup] : value.map(render).join("");
}

function template(strings: TemplateStringsArray, ...values: readonly HtmlValue[]): Html {
  let text = strings[0]!;
  for (let i = 0; i < values.length; i++) text += render(values[i]) + strings[i + 1]!;
  return wrap(text);
}

/** Tag for markup; `html.unsafe(text)` takes text as markup without escaping, for output of our own chart code. */
export const html: typeof template & {readonly unsafe: (text: string) => Html} = Object.assign(template, {
  unsafe: wrap,
});
