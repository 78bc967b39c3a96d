/** Who may ask: the page that this server gave out, and a person who opens it. Nobody else's page. */
import type {IncomingMessage} from "node:http";
import {Refusal} from "./refusal.ts";

const READING = ["GET", "HEAD"];
export const METHODS: readonly string[] = [...READING, "PUT"];

/**
 * Lets a request pass, or not.
 *
 * @param port at which the page is asked for
 * @throws Refusal 400 | 403 | 405 | 421
 */
export function requireOwnPage({method = "", url = "", headers}: IncomingMessage, port: number): void {
  if (!METHODS.includes(method)) throw new Refusal(405, "method", `only ${METHODS.join(", ")} are answered`);
  if (!url.startsWith("/")) throw new Refusal(400, "bad-request", "the address has to start with /");

  // A foreign name that has been made to lead to this machine still stands here as what it is.
  const host = headers.host?.toLowerCase() ?? "";
  if (!hostsAt(port).includes(host))
    throw new Refusal(421, "host", "this server answers only on this machine's own name");

  if (headers.origin !== undefined && headers.origin !== `http://${host}`)
    throw new Refusal(403, "origin", "only the page of this server may ask");
  const site = headers["sec-fetch-site"];
  if ((site === "cross-site" || site === "same-site") && !opensPage({method, url, headers}))
    throw new Refusal(403, "origin", "only the page of this server may ask");

  // No form and no foreign script can send this header without asking first, and that is never granted.
  if (!READING.includes(method) && headers["x-seamwright"] !== "1")
    throw new Refusal(403, "header", "a request that writes needs the header X-Seamwright: 1");
}

/** Names of this machine, the port as browsers write it: not at all when it is 80. */
function hostsAt(port: number): string[] {
  const names = ["127.0.0.1", "localhost", "[::1]"];
  return names.flatMap(name => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`]));
}

/** A link on another page that opens this one in a window of its own. */
function opensPage({method, url, headers}: Pick<IncomingMessage, "method" | "url" | "headers">): boolean {
  const path = url?.split(/[?#]/)[0];
  return (
    method === "GET" &&
    (path === "/" || path === "/index.html") &&
    headers["sec-fetch-mode"] === "navigate" &&
    headers["sec-fetch-dest"] === "document"
  );
}
