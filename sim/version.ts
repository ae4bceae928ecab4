/** Version of the engine: part of every result's identity. Raise it whenever the same scenario and seed would give other bytes. */
export const ENGINE_VERSION = "0.4.0";
