/** Before every test file: generated cases are the same in each usual run, so that a red check is red again; the long run draws new ones and prints their seed. */
import fc from "fast-check";

if (!process.env.CLAMPSIDE_LONG) fc.configureGlobal({ seed: 20 });
