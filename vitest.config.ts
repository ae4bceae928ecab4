import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/bench/**"],
    globalSetup: ["tests/made.ts"],
    setupFiles: ["tests/setup.ts"],
    maxWorkers: 2,
    testTimeout: 60_000,
  },
});
