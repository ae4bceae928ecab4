/** The lifts that worry: how loose the loosest part is. */

/** One lift as it lies in the end. */
export interface LaidLift {
  /** kg of dry matter */ readonly dryMass: number;
  /** kg DM/m3 */ readonly density: number;
}

/** Density of the loosest part, kg DM/m3: its dry matter over the volume it takes, a tenth of the dry matter unless told. NaN when nothing lies. */
export function loosestPart(lifts: readonly LaidLift[], share = 0.1): number {
  const whole = lifts.reduce((sum, lift) => sum + lift.dryMass, 0);
  let wanted = share * whole;
  let volume = 0;
  for (const { dryMass, density } of [...lifts].sort((a, b) => a.density - b.density)) {
    const taken = Math.min(dryMass, wanted);
    volume += taken / density;
    wanted -= taken;
    if (wanted <= 0) break;
  }
  return (share * whole) / volume;
}
