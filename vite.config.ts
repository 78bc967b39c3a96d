import {readFileSync} from "node:fs";
import path from "node:path";
import react from "@vitejs/plugin-react";
import {defineConfig} from "vite";

const {version} = JSON.parse(readFileSync(path.join(import.meta.dirname, "package.json"), "utf8")) as {version: string};

/** The page: src/web → dist/web, static files that any web server can give out. */
export default defineConfig({
  root: path.join(import.meta.dirname, "src/web"),
  base: "./",
  plugins: [react()],
  define: {__VERSION__: JSON.stringify(version)},
  worker: {format: "es"},
  build: {
    outDir: path.join(import.meta.dirname, "dist/web"),
    emptyOutDir: true,
    target: "es2024",
    modulePreload: {polyfill: false},
    assetsInlineLimit: 0,
  },
});
