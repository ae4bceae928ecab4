/** `clampside serve`: its options; the server itself is loaded only when it is wanted. */
import type { Command } from "commander";

export function addServe(program: Command): void {
  program.command("serve")
    .description("the server and the page")
    .option("--port <port>", "port to listen on")
    .option("--host <host>", "address to listen on")
    .action(async (options: { readonly port?: string; readonly host?: string }) => {
      const { serve } = await import("./serve.ts");
      process.exitCode = await serve(options);
    });
}
