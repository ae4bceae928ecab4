/** The generator alone, without the seeding from the platform that the package's main file brings along. */
declare module "seedrandom/lib/alea.js" {
  /** Numbers in [0, 1), multiples of 2^-32. */
  export default function alea(seed: string): () => number;
}
