import {defineConfig} from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts", "verification/**/*.test.ts"],
    testTimeout: 600_000, // whole lives are computed; a loaded machine takes its time
    pool: "threads",
    maxWorkers: 2,
  },
});
