// Compiles engine/wasm/assembly and writes the module as text beside it: a page or a file can load it like any other script.
import {writeFileSync} from "node:fs";
import {fileURLToPath} from "node:url";
import {compileKernel} from "./compile.mjs";

const out = fileURLToPath(new URL("../src/engine/wasm/compiled.ts", import.meta.url));
const bytes = await compileKernel();
const lines = Buffer.from(bytes)
  .toString("base64")
  .match(/.{1,110}/g)
  .map(line => `  "${line}"`);
writeFileSync(
  out,
  `/** Written by \`npm run build:wasm\` from assembly/kernel.ts: ${bytes.length} bytes of WebAssembly, base64. */\nexport const COMPILED =\n${lines.join(" +\n")};\n`,
);
console.log(`${bytes.length} bytes → src/engine/wasm/compiled.ts`);
