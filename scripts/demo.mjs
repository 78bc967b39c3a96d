// `npm run demo`: the example road from study to table and report.
import {spawnSync} from "node:child_process";
import {existsSync} from "node:fs";
import path from "node:path";
import {fileURLToPath, pathToFileURL} from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const study = path.join("examples", "county-road.yaml");
const report = path.join("out", "county-road.html");

if (!process.features.typescript) {
  console.error(
    `This is Node ${process.versions.node}; Node 24 is needed. \`npm run demo\` brings it along by itself.`,
  );
  process.exit(1);
}

console.log(`Computing ${study}: a few seconds …\n`);
process.on("SIGINT", () => {}); // the command below hears Ctrl-C too, and tidies up
const {status} = spawnSync(process.execPath, ["src/cli/main.ts", "life", study, "--report", report], {
  cwd: root,
  stdio: "inherit",
});
if (status === 0 && existsSync(root + report)) {
  console.log(`\nThe report is ${root + report}`);
  console.log(`Open it in a browser: ${pathToFileURL(root + report).href}`);
}
process.exitCode = status ?? 1;
