/** `clampside serve`: its options; the server itself is loaded only when it is wanted. */
import type { Command } from "commander";
import type { ServeOptions } from "./serve.ts";

export function addServe(program: Command): void {
  program.command("serve")
    .description("the server and the page")
    .option("--port <port>", "port to listen on")
    .option("--host <host>", "address to listen on")
    .option("--data <folder>", "where scenarios, studies and rehearsals are kept (default: the platform's folder for such data)")
    .action(async (options: ServeOptions) => {
      const { serve } = await import("./serve.ts");
      process.exitCode = await serve(options);
    });
}
