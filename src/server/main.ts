#!/usr/bin/env node
/** Starts the workbench: arguments in, one line out, until it is interrupted. What goes wrong is told here, once. */
import {existsSync, statSync} from "node:fs";
import type {AddressInfo} from "node:net";
import path from "node:path";
import {fileURLToPath} from "node:url";
import {Command, InvalidArgumentError} from "commander";
import type {FastifyInstance} from "fastify";
import {type AppOptions, createApp} from "./app.ts";

/** Always the same, as browsers keep a page's drafts by its address. Free of use by anything widespread. */
const USUAL_PORT = 7436;

/** Nobody but this machine gets an answer. */
const ADDRESS = "127.0.0.1";

const PAGE = fileURLToPath(new URL("../../dist/web", import.meta.url)); // both as written and as built

/** Exit codes, as of the command line. */
const EXIT = {failed: 1, badInput: 2, interrupted: 130} as const;

interface Flags {
  readonly port?: number;
  readonly page: string;
}

class CannotStart extends Error {}

const program = new Command("workbench")
  .description("The workbench: a page in your browser that works on the files of one folder of this machine.")
  .argument("[folder]", "with your studies and tables; made when you first save something", "workspace")
  .option("--port <number>", `to listen at; without it ${USUAL_PORT}, or a free one when that is taken`, portOf)
  .option("--page <folder>", "of another build of the page", PAGE)
  .showHelpAfterError("Run it with --help for how to use it.")
  .exitOverride(error => process.exit(error.exitCode === 0 ? 0 : EXIT.badInput))
  .action(start);

try {
  await program.parseAsync();
} catch (error) {
  console.error(error instanceof CannotStart ? error.message : error);
  process.exitCode = EXIT.failed;
}

async function start(folder: string, {port, page}: Flags): Promise<void> {
  const workspace = path.resolve(folder);
  if (!existsSync(path.join(page, "index.html")))
    throw new CannotStart("The page has not been built yet: npm start builds it, and so does npm run build:page.");
  const found = statSync(workspace, {throwIfNoEntry: false});
  if (found && !found.isDirectory()) throw new CannotStart(`${workspace} is a file; a folder is needed.`);

  const app = await listen({page, workspace, onUnforeseen: error => console.error(error)}, port);
  const {port: at} = app.server.address() as AddressInfo;
  const taken = port === undefined && at !== USUAL_PORT;
  if (taken)
    console.log(
      `Port ${USUAL_PORT} is taken, so this is another one; what your browser has kept for the usual one is not here.`,
    );
  const where = found ? workspace : `${workspace}, which is made when you first save`;
  console.log(`The workbench is open at http://${ADDRESS}:${at}/ for the folder ${where}. Ctrl-C ends it.`);
  closeWhenAsked(app);
}

/** @throws CannotStart */
async function listen(options: AppOptions, port: number | undefined): Promise<FastifyInstance> {
  try {
    return await listening(options, port ?? USUAL_PORT);
  } catch (error) {
    const {code} = error as NodeJS.ErrnoException;
    if (code !== "EADDRINUSE" && code !== "EACCES") throw error;
    if (port === undefined) return await listening(options, 0);
    throw new CannotStart(
      code === "EACCES"
        ? `Port ${port} may not be listened at by you: take one above 1023.`
        : `Port ${port} is taken, perhaps by a workbench that is still open: take another, or leave --port out.`,
    );
  }
}

async function listening(options: AppOptions, port: number): Promise<FastifyInstance> {
  const app = createApp(options);
  await app.listen({host: ADDRESS, port});
  return app;
}

/** The first signal lets answers under way be finished, a second one does not. */
function closeWhenAsked(app: FastifyInstance): void {
  let asked = false;
  const close = (): void => {
    if (asked) process.exit(EXIT.interrupted);
    asked = true;
    void app.close();
  };
  process.on("SIGINT", close);
  process.on("SIGTERM", close);
}

function portOf(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535) throw new InvalidArgumentError("It has to be a whole number up to 65535.");
  return port;
}
