/** The server of the workbench: the built page, and the files of one folder. Never listens by itself. */
import type {Socket} from "node:net";
import path from "node:path";
import files from "@fastify/static";
import Fastify, {type FastifyInstance, type FastifyReply, type FastifyRequest} from "fastify";
import {conditionOf} from "./conditions.ts";
import {METHODS, requireOwnPage} from "./guard.ts";
import {cachingOf, HEADERS} from "./headers.ts";
import {readPath} from "./paths.ts";
import {Refusal, refusalOf} from "./refusal.ts";
import {listWorkspace, readWorkspaceFile, writeWorkspaceFile} from "./workspace.ts";

const LARGEST_FILE = 20e6; // [bytes]
const LARGEST_OTHER_BODY = 1e6; // [bytes]
const LONGEST_REQUEST = 60_000; // [ms]

export interface AppOptions {
  readonly page: string; // folder of the built page
  readonly workspace: string; // folder, need not be there yet
  readonly port?: number; // at which browsers ask, where it is not the one listened at
  readonly onUnforeseen?: (error: unknown) => void; // told what the browser is not told
}

export function createApp({page, workspace, port, onUnforeseen = () => {}}: AppOptions): FastifyInstance {
  const refuse = (error: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply => {
    const refusal = refusalOf(error);
    if (refusal.status >= 500) onUnforeseen(error);
    return sendRefusal(refusal, request, reply);
  };
  const admit = (request: FastifyRequest, reply: FastifyReply): void => {
    reply.headers(HEADERS);
    requireOwnPage(request.raw, port ?? request.socket.localPort ?? 80);
  };

  const app = Fastify({
    bodyLimit: LARGEST_OTHER_BODY,
    requestTimeout: LONGEST_REQUEST,
    connectionTimeout: LONGEST_REQUEST,
    forceCloseConnections: "idle",
    routerOptions: {maxParamLength: 10_000},
    clientErrorHandler: answerNonsense,
    // An address that cannot be decoded comes here past all hooks.
    frameworkErrors: (error, request, reply) => {
      try {
        admit(request, reply);
        refuse(error, request, reply);
      } catch (refusal) {
        refuse(refusal, request, reply);
      }
    },
  });
  app.addHook("onRequest", async (request, reply) => admit(request, reply));
  app.setErrorHandler(refuse);
  app.setNotFoundHandler((request, reply) =>
    refuse(new Refusal(404, "not-found", "there is nothing at this address"), request, reply),
  );
  app.removeAllContentTypeParsers();
  app.addContentTypeParser("*", {parseAs: "buffer"}, (_request, body, done) => done(null, body));

  app.register(files, {
    root: path.resolve(page),
    dotfiles: "ignore",
    cacheControl: false,
    suppressWarning: true, // the page may be built later
    preCompressed: true, // the build leaves .br and .gz beside its texts
    setHeaders: (reply, file) => reply.header("Cache-Control", cachingOf(file)),
  });
  app.get("/api/workspace", async () => listWorkspace(workspace));
  app.get("/api/files/*", async (request, reply) => {
    const {bytes, etag} = readWorkspaceFile(workspace, pathOf(request));
    reply.headers({ETag: etag, "Content-Type": "application/octet-stream", "Content-Disposition": "attachment"});
    return reply.send(bytes);
  });
  app.put("/api/files/*", {bodyLimit: LARGEST_FILE}, async (request, reply) => {
    const parts = pathOf(request);
    const condition = conditionOf(request.headers);
    requireWhole(request);
    const bytes = request.body instanceof Buffer ? request.body : Buffer.alloc(0); // no body is an empty file
    const {etag, created} = writeWorkspaceFile({folder: workspace, parts, bytes, condition});
    return reply
      .code(created ? 201 : 200)
      .header("ETag", etag)
      .send({etag});
  });
  return app;
}

const FILES = "/api/files/";

/** From the address as it was sent: the router has decoded its own copy in a way that loses what was encoded. */
function pathOf(request: FastifyRequest): readonly string[] {
  const [address] = (request.raw.url ?? "").split(/[?#]/);
  if (!address.startsWith(FILES)) throw new Refusal(404, "not-found", "there is nothing at this address");
  return readPath(address.slice(FILES.length));
}

/** A piece of a file, or a packed one, would be kept as if it were the file. */
function requireWhole({headers}: FastifyRequest): void {
  if (headers["content-range"] !== undefined) throw new Refusal(400, "bad-request", "files are written whole");
  if (headers["content-encoding"] !== undefined) throw new Refusal(415, "bad-request", "files are sent unpacked");
}

function sendRefusal(
  {status, code, message, etag}: Refusal,
  request: FastifyRequest,
  reply: FastifyReply,
): FastifyReply {
  reply.code(status).header("Cache-Control", HEADERS["Cache-Control"]);
  if (status === 405) reply.header("Allow", METHODS.join(", "));
  if (etag) reply.header("ETag", etag);
  if (!request.raw.url?.startsWith("/api")) return reply.type("text/plain; charset=utf-8").send(`${message}\n`);
  return reply.type("application/json; charset=utf-8").send({error: {code, message, etag}});
}

/** What is no HTTP, too long or too slow. No browser sends it, so a status is enough. */
function answerNonsense(error: NodeJS.ErrnoException, socket: Socket): void {
  if (error.code === "ECONNRESET" || !socket.writable) return void socket.destroy();
  const status =
    error.code === "ERR_HTTP_REQUEST_TIMEOUT"
      ? "408 Request Timeout"
      : error.code === "HPE_HEADER_OVERFLOW"
        ? "431 Request Header Fields Too Large"
        : "400 Bad Request";
  const headers = Object.entries({...HEADERS, Connection: "close", "Content-Length": "0"});
  socket.end(`HTTP/1.1 ${status}\r\n${headers.map(([name, value]) => `${name}: ${value}\r\n`).join("")}\r\n`);
}
