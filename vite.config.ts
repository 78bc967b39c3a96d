import {readFileSync} from "node:fs";
import path from "node:path";
import react from "@vitejs/plugin-react";
import {defineConfig} from "vite";

const {version} = JSON.parse(readFileSync(path.join(import.meta.dirname, "package.json"), "utf8")) as {version: string};

/** Modules that do nothing when they are loaded. */
const PURE = /\/src\/(?:engine|schema|report|compute|pool)\//;

/** A folder's index.ts brings in what is asked of it, not all that it could: charts are not part of the page's start. */
const treeshake = {moduleSideEffects: [{test: PURE, sideEffects: false}]};

/** The page: src/web → dist/web, static files that any web server can give out. */
export default defineConfig({
  root: path.join(import.meta.dirname, "src/web"),
  base: "./",
  plugins: [react()],
  define: {__VERSION__: JSON.stringify(version)},
  worker: {format: "es", rolldownOptions: {treeshake}},
  build: {
    outDir: path.join(import.meta.dirname, "dist/web"),
    emptyOutDir: true,
    target: "es2024",
    modulePreload: {polyfill: false},
    assetsInlineLimit: 0,
    rolldownOptions: {treeshake},
  },
});
