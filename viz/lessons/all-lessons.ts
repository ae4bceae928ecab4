/** The lessons, in the order in which they build on one another. */
import { anotherTruck } from "./lesson-another-truck.ts";
import { coinToss } from "./lesson-coin-toss.ts";
import { drierCrop } from "./lesson-drier-crop.ts";
import { february } from "./lesson-february.ts";
import { sameHours } from "./lesson-same-hours.ts";
import { secondTippingPlace } from "./lesson-second-tipping-place.ts";
import { whoPays } from "./lesson-who-pays.ts";
import type { Lesson } from "./lesson.ts";

export const LESSONS: readonly Lesson[] = [anotherTruck, secondTippingPlace, whoPays, sameHours, coinToss, drierCrop, february];
