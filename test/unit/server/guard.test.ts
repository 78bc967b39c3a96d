/** Who may ask. Names of headers and what browsers send in them: Fetch and Fetch Metadata standards. */
import {existsSync, writeFileSync} from "node:fs";
import type {AddressInfo} from "node:net";
import {connect} from "node:net";
import {brotliCompressSync, brotliDecompressSync} from "node:zlib";
import {beforeEach, describe, expect, test} from "vitest";
import {createApp} from "../../../src/server/app.ts";
import {testFolder} from "../folder.ts";
import {OWN, PORT, request, type Workbench, WRITING, workbench} from "./workbench.ts";

const at = testFolder("test");
let bench: Workbench;
beforeEach(() => {
  bench = workbench(at("page"), at("work"));
});
const NEW = {...WRITING, "if-none-match": "*"};
const LINK = {"sec-fetch-mode": "navigate", "sec-fetch-dest": "document", "sec-fetch-site": "cross-site"};

describe("headers of every answer", () => {
  const answers: [string, number, Parameters<Workbench["ask"]>[0]][] = [
    ["page", 200, {url: "/"}],
    ["asset", 200, {url: "/assets/start-1a2b3c.js"}],
    ["page unchanged", 304, {url: "/", headers: {...OWN, "if-modified-since": "Fri, 01 Jan 2100 00:00:00 GMT"}}],
    ["page, headers only", 200, {url: "/", method: "HEAD"}],
    ["list of files", 200, {url: "/api/workspace"}],
    ["written file", 201, {url: "/api/files/a.yaml", method: "PUT", headers: NEW, payload: "a"}],
    ["no such file", 404, {url: "/api/files/none.yaml"}],
    ["bad path", 400, {url: "/api/files/a%5Cb.yaml"}],
    ["no such route", 404, {url: "/api/none"}],
    ["no such page", 404, {url: "/none"}],
    ["hidden file of the page", 404, {url: "/.hidden"}],
    ["address that cannot be decoded", 400, {url: "/%E0%A4%A"}],
    ["the same of a foreign name", 421, {url: "/%E0%A4%A", headers: {host: "example.com"}}],
    ["foreign name", 421, {url: "/", headers: {host: "example.com"}}],
    ["foreign page", 403, {url: "/api/workspace", headers: {...OWN, origin: "http://example.com"}}],
    ["unknown method", 405, {url: "/", method: "DELETE"}],
    ["too large", 413, {url: "/api/files/a.yaml", method: "PUT", headers: NEW, payload: Buffer.alloc(20e6 + 1)}],
  ];
  test.each(answers)("%s", async (_name, status, asked) => {
    const {statusCode, headers} = await bench.ask(asked);
    expect(statusCode).toBe(status);
    expect(headers).toMatchObject({
      "x-content-type-options": "nosniff",
      "x-frame-options": "DENY",
      "referrer-policy": "no-referrer",
      "cross-origin-opener-policy": "same-origin",
      "cross-origin-embedder-policy": "require-corp",
      "cross-origin-resource-policy": "same-origin",
      "permissions-policy": expect.stringContaining("camera=(), "),
    });
    const policy = String(headers["content-security-policy"]).split("; ");
    expect(policy).toEqual(
      expect.arrayContaining(["default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "frame-ancestors 'none'"]),
    );
    expect(Object.keys(headers).filter(name => name.startsWith("access-control") || name === "server")).toEqual([]);
  });

  test("assets are kept for good, the page is asked for anew, nothing else is kept", async () => {
    const caching = async (url: string) => (await bench.ask({url})).headers["cache-control"];
    expect(await caching("/assets/start-1a2b3c.js")).toBe("public, max-age=31536000, immutable");
    expect(await caching("/")).toBe("no-cache");
    expect(await caching("/index.html")).toBe("no-cache");
    for (const url of ["/api/workspace", "/api/none", "/none", "/assets/none.js", "/api/files/a.yaml"])
      expect(await caching(url)).toBe("no-store");
  });

  test("a text that lies there packed is sent so to whom takes it, and kept as long", async () => {
    const script = "/assets/start-1a2b3c.js";
    writeFileSync(at(`page${script}.br`), brotliCompressSync("export {};"));
    const ask = (encoding: string) => bench.ask({url: script, headers: {...OWN, "accept-encoding": encoding}});
    const packed = await ask("gzip, deflate, br");
    expect(packed.headers).toMatchObject({
      "content-encoding": "br",
      "content-type": "application/javascript; charset=utf-8",
      "cache-control": "public, max-age=31536000, immutable",
      vary: "accept-encoding",
    });
    expect(brotliDecompressSync(packed.rawPayload).toString()).toBe("export {};");
    const plain = await ask("gzip"); // there is none
    expect([plain.headers["content-encoding"], plain.body]).toEqual([undefined, "export {};"]);
  });

  test("errors are JSON below /api and plain text elsewhere", async () => {
    const api = await bench.ask({url: "/api/none"});
    expect(api.headers["content-type"]).toMatch(/^application\/json/);
    expect(api.json()).toEqual({error: {code: "not-found", message: "there is nothing at this address"}});
    expect((await bench.ask({url: "/none"})).headers["content-type"]).toMatch(/^text\/plain/);
  });
});

describe("the name by which the server is asked", () => {
  test.each([`127.0.0.1:${PORT}`, `localhost:${PORT}`, `LOCALHOST:${PORT}`, `[::1]:${PORT}`])(
    "%s passes",
    async host => {
      expect((await bench.ask({url: "/api/workspace", headers: {host}})).statusCode).toBe(200);
    },
  );

  test.each([
    "example.com",
    `example.com:${PORT}`,
    "127.0.0.1",
    "localhost",
    "127.0.0.1:80",
    `127.0.0.1.example.com:${PORT}`,
    `localhost.:${PORT}`,
    `0.0.0.0:${PORT}`,
    `192.168.1.2:${PORT}`,
    `user@localhost:${PORT}`,
    "",
  ])("'%s' does not", async host => {
    for (const url of ["/", "/api/workspace", "/assets/start-1a2b3c.js"]) {
      const answer = await bench.ask({url, headers: {host}});
      expect(answer.statusCode).toBe(421);
      expect(answer.body).not.toContain("Workbench");
    }
  });

  test("without a port said, it is the one listened at", async () => {
    const app = createApp({page: at("page"), workspace: at("work")});
    await app.listen({host: "127.0.0.1", port: 0});
    const {port} = app.server.address() as AddressInfo;
    expect((await request(app, {path: "/"})).status).toBe(200);
    expect((await request(app, {path: "/", headers: {host: `localhost:${port}`}})).status).toBe(200);
    expect((await request(app, {path: "/", headers: {host: `localhost:${port + 1}`}})).status).toBe(421);
    await app.close();
  });
});

describe("the page that asks", () => {
  test("its own passes", async () => {
    const headers = {...OWN, origin: `http://127.0.0.1:${PORT}`, "sec-fetch-site": "same-origin"};
    expect((await bench.ask({url: "/api/workspace", headers})).statusCode).toBe(200);
  });

  test("a person passes, by typing the address or by a link elsewhere", async () => {
    expect((await bench.ask({url: "/", headers: {...OWN, "sec-fetch-site": "none"}})).statusCode).toBe(200);
    for (const url of ["/", "/index.html", "/?from=mail"])
      expect((await bench.ask({url, headers: {...OWN, ...LINK}})).statusCode).toBe(200);
  });

  test.each([
    "null",
    "http://example.com",
    `https://127.0.0.1:${PORT}`,
    `http://localhost:${PORT}`, // another name than the one asked by
    `http://127.0.0.1:${PORT + 1}`,
    "http://127.0.0.1",
    `http://127.0.0.1:${PORT}.example.com`,
    "",
  ])("origin '%s' does not", async origin => {
    expect((await bench.ask({url: "/api/workspace", headers: {...OWN, origin}})).statusCode).toBe(403);
    const write = await bench.ask({url: "/api/files/a.yaml", method: "PUT", headers: {...NEW, origin}, payload: "a"});
    expect(write.statusCode).toBe(403);
    expect(existsSync(at("work"))).toBe(false);
  });

  test.each([
    ["a script elsewhere", "/api/workspace", {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}],
    ["a script at another port", "/api/workspace", {"sec-fetch-site": "same-site", "sec-fetch-mode": "cors"}],
    [
      "a picture elsewhere",
      "/",
      {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors", "sec-fetch-dest": "image"},
    ],
    ["a frame elsewhere", "/", {...LINK, "sec-fetch-dest": "iframe"}],
    ["a link to the files", "/api/workspace", LINK],
    ["a link to an asset", "/assets/start-1a2b3c.js", LINK],
  ])("%s does not", async (_name, url, headers) => {
    expect((await bench.ask({url, headers: {...OWN, ...headers}})).statusCode).toBe(403);
  });

  test("what writes says so in a header that no foreign page can send", async () => {
    const payload = "a";
    for (const mark of [{}, {"x-seamwright": "0"}, {"x-seamwright": ""}]) {
      const headers = {...OWN, "if-none-match": "*", ...mark};
      expect((await bench.ask({url: "/api/files/a.yaml", method: "PUT", headers, payload})).statusCode).toBe(403);
    }
    expect(existsSync(at("work"))).toBe(false);
  });

  test("a browser that asks beforehand is granted nothing", async () => {
    const headers = {...OWN, "access-control-request-method": "PUT", "access-control-request-headers": "x-seamwright"};
    const answer = await bench.ask({url: "/api/files/a.yaml", method: "OPTIONS", headers});
    expect(answer.statusCode).toBe(405);
    expect(answer.headers.allow).toBe("GET, HEAD, PUT");
  });
});

describe("over the network", () => {
  const methods = ["POST", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND", "MKCOL", "MOVE", "LOCK"];
  test("no other methods", async () => {
    await bench.app.listen({host: "127.0.0.1", port: 0});
    for (const method of methods)
      for (const path of ["/", "/api/workspace", "/api/files/a.yaml"]) {
        const {status, headers} = await request(bench.app, {method, path, headers: WRITING});
        expect({method, path, status}).toEqual({method, path, status: 405});
        expect(headers["x-content-type-options"]).toBe("nosniff");
      }
    await bench.app.close();
  });

  test("what is no HTTP is answered with a status, and an address with a name in it is refused", async () => {
    await bench.app.listen({host: "127.0.0.1", port: 0});
    const {port} = bench.app.server.address() as AddressInfo;
    const raw = (text: string): Promise<string> =>
      new Promise((resolve, reject) => {
        let heard = "";
        const socket = connect(port, "127.0.0.1", () => socket.end(text));
        socket.on("data", part => {
          heard += part;
        });
        socket.on("close", () => resolve(heard));
        socket.on("error", reject);
      });
    expect(await raw("NONSENSE\r\n\r\n")).toMatch(/^HTTP\/1\.1 400 Bad Request\r\n[\s\S]*X-Frame-Options: DENY\r\n/);
    expect(await raw(`GET / HTTP/1.1\r\nHost: 127.0.0.1:${PORT}\r\nX: ${"x".repeat(20_000)}\r\n\r\n`)).toMatch(
      /^HTTP\/1\.1 431 /,
    );
    const named = `GET http://example.com/api/workspace HTTP/1.1\r\nHost: 127.0.0.1:${PORT}\r\nConnection: close\r\n\r\n`;
    expect(await raw(named)).toMatch(/^HTTP\/1\.1 400 /);
    await bench.app.close();
  });
});
