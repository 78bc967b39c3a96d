// `npm run demo`: from the example laboratory to growth laws, and with them the life of the example road.
import {spawnSync} from "node:child_process";
import {existsSync} from "node:fs";
import path from "node:path";
import {fileURLToPath, pathToFileURL} from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const study = path.join("examples", "county-road.yaml");
const laws = path.join("out", "laws");
const reports = {laboratory: path.join("out", "laboratory.html"), road: path.join("out", "county-road.html")};

if (!process.features.typescript) {
  console.error(
    `This is Node ${process.versions.node}; Node 24 is needed. \`npm run demo\` brings it along by itself.`,
  );
  process.exit(1);
}

process.on("SIGINT", () => {}); // the command below hears Ctrl-C too, and tidies up
const run = (...args) => {
  const {status} = spawnSync(process.execPath, ["src/cli/main.ts", ...args], {
    cwd: root,
    stdio: ["inherit", "inherit", "ignore"],
  });
  if (status !== 0) process.exit(status ?? 1);
};
console.log("1. From laboratory tests to growth laws: examples/laboratory, a quarter of a minute …\n");
run("beams", path.join("examples", "laboratory"), "--laws", laws, "--report", reports.laboratory);
console.log(`\n2. From those laws to the life of a road: ${study}, a few seconds …\n`);
run("life", study, "--laws", laws, "--report", reports.road);
console.log("\nReports, to open in a browser:");
for (const report of Object.values(reports))
  if (existsSync(root + report)) console.log(`  ${pathToFileURL(root + report).href}`);
