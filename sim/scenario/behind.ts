/** What a crew does when packing falls behind: what each rule means, once; the day, the hand check and the studies read it here. */
import type { BehindRule } from "./types.ts";

export interface Behind {
  /** whether the blades let a lift be packed before they bury it */ readonly holds: "always" | "until-full" | "never";
  /** the choppers are slowed to what the crew packs at target */ readonly eases: boolean;
}

const BEHIND: Readonly<Record<BehindRule, Behind>> = {
  hold: { holds: "always", eases: false },
  bury: { holds: "never", eases: false },
  "hold-then-bury": { holds: "until-full", eases: false },
  ease: { holds: "always", eases: true },
};

/** What this plan's crew does. */
export const behindOf = ({ packing }: { readonly packing: { readonly whenBehind: BehindRule } }): Behind => BEHIND[packing.whenBehind];
