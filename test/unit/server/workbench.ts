/** A small page and an empty workspace for the tests of the server, asked without a network or over a real one. */
import {mkdirSync, writeFileSync} from "node:fs";
import http from "node:http";
import type {AddressInfo} from "node:net";
import type {FastifyInstance, InjectOptions, LightMyRequestResponse} from "fastify";
import {createApp} from "../../../src/server/app.ts";

export const PORT = 7000;
export const OWN = {host: `127.0.0.1:${PORT}`};
export const WRITING = {...OWN, "x-seamwright": "1"};

export interface Workbench {
  readonly app: FastifyInstance;
  readonly unforeseen: unknown[];
  readonly ask: (request: InjectOptions) => Promise<LightMyRequestResponse>;
  /** Writes a new file, or over one whose ETag is given. */
  readonly put: (path: string, content: string | Buffer, etag?: string) => Promise<LightMyRequestResponse>;
}

export function writePage(folder: string): void {
  mkdirSync(`${folder}/assets`, {recursive: true});
  writeFileSync(`${folder}/index.html`, "<!doctype html><title>Workbench</title>");
  writeFileSync(`${folder}/assets/start-1a2b3c.js`, "export {};");
  writeFileSync(`${folder}/.hidden`, "not for the web");
}

/** Ask as the server's own page would, unless headers say otherwise. */
export function workbench(page: string, workspace: string): Workbench {
  writePage(page);
  const unforeseen: unknown[] = [];
  const app = createApp({page, workspace, port: PORT, onUnforeseen: error => unforeseen.push(error)});
  const put: Workbench["put"] = (path, content, etag) =>
    app.inject({
      method: "PUT",
      url: `/api/files/${path}`,
      headers: {...WRITING, ...(etag === undefined ? {"if-none-match": "*"} : {"if-match": etag})},
      payload: content,
    });
  return {app, unforeseen, ask: request => app.inject({headers: OWN, ...request}), put};
}

export interface Answer {
  readonly status: number;
  readonly headers: http.IncomingHttpHeaders;
  readonly body: string;
}

/** Over the network, and with the address exactly as given: no client tidies it up. */
export function request(app: FastifyInstance, options: http.RequestOptions, body = ""): Promise<Answer> {
  const {port} = app.server.address() as AddressInfo;
  return new Promise((resolve, reject) => {
    const sent = http.request({host: "127.0.0.1", port, agent: false, ...options}, answer => {
      const parts: Buffer[] = [];
      answer.on("data", part => parts.push(part));
      answer.on("error", reject);
      answer.on("end", () =>
        resolve({status: answer.statusCode ?? 0, headers: answer.headers, body: Buffer.concat(parts).toString()}),
      );
    });
    sent.on("error", reject);
    sent.end(body);
  });
}
