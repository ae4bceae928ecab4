/** `clampside serve`: its options; the server itself is loaded only when it is wanted. */
import type { Command } from "commander";
import { USUAL_PORT } from "../limits.ts";
import type { ServeOptions } from "./serve.ts";

export function addServe(program: Command): void {
  program.command("serve")
    .description("the server and the page")
    .option("--port <port>", `port to listen on (default: ${USUAL_PORT}, or a free one where that is in use)`)
    .option("--host <host>", "address to listen on (default: 127.0.0.1, this machine alone; any other asks visitors for a token)")
    .option("--token <token>", "the token to ask for (default: CLAMPSIDE_TOKEN, or one that is made and shown)")
    .option("--data <folder>", "where scenarios, studies and rehearsals are kept (default: the platform's folder for such data)")
    .addHelpText("after", "\nExample:\n  clampside serve --port 4717 --data ~/clampside")
    .action(async (options: ServeOptions) => {
      const { serve } = await import("./serve.ts");
      process.exitCode = await serve(options);
    });
}
