import { defineConfig } from "vitest/config";

/**
 * Rooms whose tests speak to the engine and to commands alone. The engine keeps nothing from one call to the next, so their files can share
 * a process, where it is read and compiled once instead of once a file. A test here leaves nothing behind; one that must goes to another room.
 */
const engine = ["kernel", "forage", "ground", "scenario", "harvest", "findings", "study", "tickets", "published", "scenarios"].map((room) => `tests/${room}/**/*.test.ts`);

/**
 * ms. Studies step back for whatever else a machine has to do: beside five busy processes on two cores, one that takes two seconds took more than
 * a minute. The long run asks some tests a hundred times as much; on a busy machine they took four minutes.
 */
const testTimeout = process.env.CLAMPSIDE_LONG ? 900_000 : 180_000;
const usual = { setupFiles: ["tests/setup.ts"], testTimeout, maxWorkers: 2 };

export default defineConfig({
  test: {
    // For the whole run; in a project it would be done once for each.
    globalSetup: ["tests/made.ts"],
    projects: [
      { test: { ...usual, name: "engine", include: engine, isolate: false } },
      { test: { ...usual, name: "rest", include: ["tests/**/*.test.ts"], exclude: ["tests/bench/**", ...engine] } },
    ],
  },
});
