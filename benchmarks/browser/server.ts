/** Static files of a bundle for a page on this machine, and what the page posts back. */
import {readFileSync} from "node:fs";
import {createServer, type IncomingMessage, type ServerResponse} from "node:http";
import type {AddressInfo} from "node:net";
import path from "node:path";

export interface ServerOptions {
  readonly folder: string; // of the bundle
  readonly subjects: string; // what the page asks for
  /** Whether the page may have memory that threads share. */
  readonly isolated: boolean;
  readonly onLine: (line: string) => void;
}

export interface Server {
  readonly address: string;
  readonly ended: Promise<void>; // rejected when the page fails
  close(): void;
}

const ISOLATION = {"Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Embedder-Policy": "require-corp"};
const PAGE =
  '<!doctype html><meta charset="utf-8"><title>Benchmark</title><script type="module" src="/page.js"></script>';

export async function openServer({folder, subjects, isolated, onLine}: ServerOptions): Promise<Server> {
  const {promise, resolve, reject} = Promise.withResolvers<void>();
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const send = (type: string, body: string): void => {
      response.writeHead(200, {"Content-Type": type, ...(isolated ? ISOLATION : {})}).end(body);
    };
    const {pathname} = new URL(request.url ?? "/", "http://localhost");
    switch (pathname) {
      case "/":
        return send("text/html", PAGE);
      case "/subjects":
        return send("application/json", subjects);
      case "/line":
        onLine(await bodyOf(request));
        return send("text/plain", "");
      case "/end":
        send("text/plain", "");
        return resolve();
      case "/failed":
        reject(new Error(`the page failed: ${await bodyOf(request)}`));
        return send("text/plain", "");
      default:
        if (!/^\/[\w-]+\.js$/.test(pathname)) return void response.writeHead(404).end();
        return send("text/javascript", readFileSync(path.join(folder, pathname), "utf8"));
    }
  };
  const server = createServer((request, response) => {
    answer(request, response).catch(error => {
      response.writeHead(500).end();
      reject(error);
    });
  });
  await new Promise<void>(listening => server.listen(0, "127.0.0.1", listening));
  const {port} = server.address() as AddressInfo;
  const close = (): void => {
    server.close();
    server.closeAllConnections();
  };
  return {address: `http://127.0.0.1:${port}/`, ended: promise, close};
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  request.setEncoding("utf8");
  let text = "";
  for await (const part of request) text += part;
  return text;
}
