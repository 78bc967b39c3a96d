#!/usr/bin/env node
/** Start of the program: everything is loaded after this, and by its worker threads, from compiled code kept on disk. */
import {enableCompileCache} from "node:module";
import {fileURLToPath} from "node:url";

const CACHE = fileURLToPath(new URL("../../node_modules/.cache/seamwright", import.meta.url));

const {directory} = enableCompileCache(process.env.NODE_COMPILE_CACHE ?? CACHE); // does nothing where it cannot write
if (directory) process.env.NODE_COMPILE_CACHE ??= CACHE; // by which threads find it
await import("./commandLine.ts");
