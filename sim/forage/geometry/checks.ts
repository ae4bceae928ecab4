/** What is wrong, or unwise, about a shape: a sentence each, for whoever wrote it. */
import { leastWidth, steepestSlope } from "../safety.ts";
import { capacityOf } from "./body.ts";
import { endRun, floorFor, frontRun, profileOf, topBehind } from "./shape.ts";
import type { Shape } from "./shape.ts";

export interface Check {
  /** the dimension to change */ readonly key: "width" | "length" | "height" | "wedge" | "sideSlope" | "crown";
  /** true: there is no such storage; false: there is, and it wants care */ readonly refuses: boolean;
  readonly detail: string;
}

const figure = (value: number): string => String(Number(value.toFixed(2)));

/**
 * All that is wrong with a shape, or wants care; nothing when it is sound. A shape that refuses must not be filled.
 * @param widestTractor m; 0 when nobody packs @param load m3 as packed of one usual load, when known
 */
export function checksOf(shape: Shape, widestTractor: number, load = 0): Check[] {
  const bad = impossible(shape);
  return bad.length > 0 ? bad : [...tooSmall(shape, load), ...tooSteep(shape), ...tooNarrow(shape, widestTractor)];
}

function impossible(shape: Shape): Check[] {
  const { form, width, height, sideSlope, wedge, crown } = shape;
  const checks: Check[] = [];
  const refuse = (key: Check["key"], detail: string) => checks.push({ key, refuses: true, detail });

  for (const key of ["width", "length", "height"] as const) {
    if (!(shape[key] > 0 && shape[key] < Infinity)) refuse(key, `The ${key} is ${shape[key]} m: a storage needs a ${key} above 0.`);
  }
  if (wedge !== undefined && !(wedge > 0 && wedge < Infinity)) {
    refuse("wedge", `The wedge is 1:${wedge}: the working slope needs a run above 0, and 1:${steepestSlope.value} or flatter can be packed.`);
  }
  if (form === "pile" && !(sideSlope > 0 && sideSlope < Infinity)) {
    refuse("sideSlope", `The sides are 1:${sideSlope}: without walls they need a run above 0, and 1:${steepestSlope.value} or flatter can be packed.`);
  }
  if (crown !== undefined && !(crown >= 0 && crown < Infinity)) refuse("crown", `The crown is ${crown} m: give 0 or more.`);
  if (crown && form === "pile") refuse("crown", "A crown stands above walls, and a pile has none: give the pile's height with it.");
  if (checks.length > 0 || form === "bunker") return checks;

  const ridge = width / (2 * sideSlope);
  if (height >= ridge) {
    refuse("height", `The height is ${figure(height)} m: a base ${figure(width)} m wide with sides of 1:${figure(sideSlope)} comes to a ridge at ${figure(ridge)} m; a lower pile or a wider base would do.`);
  }
  return checks;
}

/** Too short for its height, or for a single load. */
function tooSmall(shape: Shape, load: number): Check[] {
  const checks: Check[] = [];
  const profile = profileOf(shape);
  const floor = floorFor(profile, profile.top);
  if (floor >= shape.length) {
    const slopes = endRun(shape) > 0 ? `slopes of 1:${figure(frontRun(shape))} in front and 1:${figure(endRun(shape))} at the back` : `a slope of 1:${figure(frontRun(shape))} in front`;
    checks.push({
      key: "length", refuses: false,
      detail: `The length is ${figure(shape.length)} m: ${slopes} and a height of ${figure(profile.top)} m take ${figure(floor)} m, so it comes to no more than ${figure(topBehind(profile, shape.length))} m at its highest.`,
    });
  }
  const capacity = capacityOf(shape);
  if (load > capacity) {
    checks.push({ key: "length", refuses: true, detail: `It holds ${figure(capacity)} m3 and one load packs to ${figure(load)} m3: a storage must take a load at least.` });
  }
  return checks;
}

function tooSteep(shape: Shape): Check[] {
  const checks: Check[] = [];
  const limit = steepestSlope.value;
  const look = (key: Check["key"], name: string, run: number) => {
    if (run < limit) checks.push({ key, refuses: false, detail: `${name} 1:${figure(run)}, steeper than the 1:${limit} that is the most advised: a tractor may slide or roll over there, and packs little.` });
  };
  if (shape.wedge !== undefined) look("wedge", "The wedge is", shape.wedge);
  if (shape.form === "pile") look("sideSlope", "The sides are", shape.sideSlope);
  if (shape.crown) look("crown", "The crown slopes", shape.width / (2 * shape.crown));
  return checks;
}

function tooNarrow(shape: Shape, widestTractor: number): Check[] {
  const least = leastWidth.value * widestTractor;
  const wants = `under ${leastWidth.value} times the widest tractor (${figure(widestTractor)} m): machines cannot keep off the edge, and the middle or the sides stay unpacked.`;
  if (shape.width < least) return [{ key: "width", refuses: false, detail: `The width is ${figure(shape.width)} m, ${wants}` }];
  const top = shape.width - 2 * endRun(shape) * shape.height;
  if (top < least) return [{ key: "height", refuses: false, detail: `At the full height the pile is ${figure(top)} m wide, ${wants}` }];
  return [];
}
