import {expect, test} from "vitest";
import {cssString, escapeHtml, html} from "../../../src/report/html.ts";

test("interpolated text is escaped, as content and in attributes", () => {
  const name = `<img src=x onerror="alert('1')"> & co`;
  expect(html`<p title="${name}">${name}</p>`.toString()).toBe(
    `<p title="&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt; &amp; co">&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt; &amp; co</p>`,
  );
});

test("Html nests without being escaped twice; lists join; nothing is left by null, undefined and false", () => {
  const inner = html`<b>${"a&b"}</b>`;
  expect(html`<p>${inner}${[inner, "<", 3]}${null}${undefined}${false}</p>`.toString()).toBe(
    "<p><b>a&amp;b</b><b>a&amp;b</b>&lt;3</p>",
  );
  expect(html`${0}`.toString()).toBe("0");
});

test("an object that looks like Html but was not made by it is not taken as markup", () => {
  const forged = JSON.parse('{"markup": "<script>"}');
  expect(() => html`${forged}`).toThrow();
});

test("unsafe leaves markup as it is", () => {
  expect(html`<p>${html.unsafe("<i>x</i>")}</p>`.toString()).toBe("<p><i>x</i></p>");
});

test("escapeHtml replaces every one of the five characters", () => {
  expect(escapeHtml(`&<>"'&`)).toBe("&amp;&lt;&gt;&quot;&#39;&amp;");
});

test("a CSS string cannot end the string, the rule or the style element", () => {
  const text = cssString(`a" } </style><script>\n\\`);
  expect(text.slice(1, -1)).not.toMatch(/["<>{}\n]/);
  expect(text).not.toContain("</");
  expect(cssString("County road 214, km 3.2")).toBe('"County road 214, km 3.2"');
});
