import js from "@eslint/js";
import tseslint from "typescript-eslint";

/** Rooms a file may not import from: arrows of the house point down only (see DEVELOPERS.md). */
const ROOMS = {
  "sim/kernel": ["forage", "scenario", "harvest", "findings", "study"],
  "sim/forage": ["kernel", "scenario", "harvest", "findings", "study"],
  // Of scenario, ground takes the words, units and limits, which know nobody; scenario measures its outlines with ground.
  "sim/ground": ["kernel", "scenario/read", "scenario/settle", "scenario/survey", "scenario/written", "scenario/desk", "harvest", "findings", "study"],
  "sim/scenario": ["harvest", "findings", "study"],
  "sim/harvest": ["findings", "study"],
  "sim/findings": ["study"],
  "sim/study": [],
};

const OUTSIDE_SIM = ["**/server/**", "**/viz/**", "node:*", "express", "d3", "preact", "preact/*", "@preact/*"];

const roomRules = Object.entries(ROOMS).map(([room, above]) => ({
  files: [`${room}/**/*.ts`],
  rules: {
    "no-restricted-imports": ["error", {
      patterns: [{
        group: [...above.map((name) => (name.includes("/") ? `**/${name}.ts` : `**/${name}/**`)), ...OUTSIDE_SIM],
        message: `${room} stands below this: arrows point down only, see DEVELOPERS.md.`,
      }],
    }],
    "no-restricted-globals": ["error",
      ...["Date", "process", "window", "document", "setTimeout", "performance", "console"].map((name) => ({ name, message: "sim runs anywhere: no clock of its own, no Node, no DOM." }))],
    "no-restricted-properties": ["error", { object: "Math", property: "random", message: "Every draw comes from a named stream in sim/kernel/random.ts." }],
  },
}));

export default tseslint.config(
  { ignores: ["dist/", "coverage/", "node_modules/"] },
  js.configs.recommended,
  ...tseslint.configs.recommended,
  {
    rules: {
      "@typescript-eslint/no-explicit-any": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      "prefer-const": "error",
      eqeqeq: ["error", "always"],
    },
  },
  ...roomRules,
  {
    files: ["viz/**/*.{ts,tsx}"],
    rules: {
      "no-restricted-imports": ["error", { patterns: [{ group: ["**/server/**", "node:*"], message: "The page takes types and small pure functions from sim, nothing from server." }] }],
    },
  },
);
