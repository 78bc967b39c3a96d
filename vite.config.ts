import path from "node:path";
import react from "@vitejs/plugin-react";
import {defineConfig} from "vite";

/** The page: src/web → dist/web, static files that any web server can give out. */
export default defineConfig({
  root: path.join(import.meta.dirname, "src/web"),
  base: "./",
  plugins: [react()],
  worker: {format: "es"},
  build: {
    outDir: path.join(import.meta.dirname, "dist/web"),
    emptyOutDir: true,
    target: "es2024",
    modulePreload: {polyfill: false},
  },
});
