/** Work that nobody waits for with a finger on a slider: it takes what the machine has to spare. */
import { constants, setPriority } from "node:os";

/**
 * Puts this thread, and those that it starts from now on, behind the threads of the server that answer at once. On Linux a thread has a priority of its own; elsewhere it would be the
 * whole process that steps back, so it stays as it is.
 */
export function stepBack(): void {
  if (process.platform === "linux") setPriority(constants.priority.PRIORITY_LOW);
}
