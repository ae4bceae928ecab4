/** Fuel burnt, in litres of diesel. */
import type { Sourced } from "./sourced.ts";

/** Mean over a year's mixed work, per kW of rated power-take-off power. */
export const fuelPerPower: Sourced = {
  value: 0.223, unit: "L/h per kW", source: "ASABE EP496.3 6.3.2.1, in Grisso, Virginia Cooperative Extension", mark: "published",
};

/** Whole self-propelled forage harvesters, per tonne of fresh crop. */
export const fuelPerTonneChopped: Sourced = {
  value: 0.6, unit: "L/t", source: "time study of self-propelled forage harvesters, 2023", mark: "published", note: "about",
};

/** Litres burnt by a machine of this rated power (kW) in this time (s) of work. */
export function fuelByPower(powerKw: number, seconds: number): number {
  return (fuelPerPower.value * powerKw * seconds) / 3600;
}

/** Litres a self-propelled chopper burns for this much fresh crop (kg). */
export function fuelByMass(mass: number): number {
  return (fuelPerTonneChopped.value * mass) / 1000;
}
