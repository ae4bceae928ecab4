/** A rehearsal's tables for spreadsheets: its measures, and the loads and lifts of the day that is shown. */
import type { Findings } from "../sim/findings/types.ts";
import { readLog } from "../sim/harvest/log.ts";
import { csv } from "../sim/csv.ts";
import type { Document } from "./documents.ts";

const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** Clock of a moment, `HH:MM:SS`; hours go on counting past midnight. Empty for what never came. */
function clock(seconds: number): string | null {
  if (!Number.isFinite(seconds)) return null;
  const whole = Math.round(seconds);
  return [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60].map((part) => String(part).padStart(2, "0")).join(":");
}

const tonnes = (kg: number): number => Math.round(kg) / 1000;

/** Of a rehearsal's findings. */
export function measures({ bytes }: Document): string {
  const { findings } = JSON.parse(textOf(bytes)) as { findings: Findings };
  return csv(
    ["measure", "unit", "mean", "sd", "low 95 %", "high 95 %", "p10", "p90"],
    Object.entries(findings.measures).map(([name, { unit, mean, sd, low, high, p10, p90 }]) => [name, unit, mean, sd, low, high, p10, p90]),
  );
}

function trips({ bytes }: Document): string {
  const { header: { plan }, day } = readLog(textOf(bytes));
  return csv(
    ["load", "truck", "chopper", "field", "storage", "mass t", "dry matter t", "in line", "alongside", "filled", "at scale", "weighed", "at storage", "tips", "tipped", "back"],
    day.trips.map((trip, i) => [
      i + 1, day.machines[trip.truck]?.name ?? null, plan.choppers[trip.chopper]?.name ?? null, plan.fields[trip.field]?.name ?? null, plan.storages[trip.storage]?.name ?? null,
      tonnes(trip.mass), tonnes(trip.dryMass),
      ...[trip.arrived, trip.alongside, trip.filled, trip.atScale, trip.weighed, trip.atStorage, trip.tipFrom, trip.tipped, trip.back].map(clock),
    ]),
  );
}

function lifts({ bytes }: Document): string {
  const { header: { plan }, day } = readLog(textOf(bytes));
  return csv(
    ["lift", "storage", "load", "mass t", "dry matter t", "layer cm", "spread from", "opened", "closed", "rolled min"],
    day.lifts.map((lift, i) => [
      i + 1, plan.storages[lift.storage]?.name ?? null, lift.trip + 1, tonnes(lift.mass), tonnes(lift.dryMass), Math.round(lift.layer * 1000) / 10,
      clock(lift.spreadFrom), clock(lift.opened), clock(lift.closed), Math.round(lift.rolled.reduce((sum, seconds) => sum + seconds, 0) / 6) / 10,
    ]),
  );
}

/** Name of the table -> what makes it of a day's log. */
export const DAY_TABLES = { trips, lifts } as const satisfies Record<string, (log: Document) => string>;
