/** Roads: how much longer than the straight line, and how fast. */
import type { Sourced } from "./sourced.ts";

/** Road length over straight line. */
export const circuity: Sourced = { value: 1.2, unit: "1", source: "Newell 1980; O'Sullivan & Morrall 1996", mark: "published", range: [1.2, 1.23] };

/** Mean road speeds measured on crop transport. */
export const roadSpeeds = {
  tractorTwoTrailers: { value: 27.4, unit: "km/h", source: "Manzone et al. 2020, maize silage on two trailers", mark: "published" },
  tractorConvoy: { value: 24, unit: "km/h", source: "Manzone & Balsari 2015, agricultural convoys", mark: "published" },
  lorry: { value: 42, unit: "km/h", source: "Manzone & Balsari 2015, lorries", mark: "published" },
} as const satisfies Record<string, Sourced>;
