/** One truck being filled: changeover, to the row's end, round, and on. All of it is known when it begins, so it is one wait. */
import type { Wait } from "../kernel/index.ts";
import type { Trip } from "./daylog.ts";
import { NOTHING, type Pace, type StandingCrop } from "./field.ts";
import type { Stint } from "./stint.ts";

/** What a chopper has in hand, made once and used for load after load. The crop falls when the cutting is over, or as far as it came. */
export class Cutting {
  private trip!: Trip;
  private crop!: StandingCrop;
  private pace: Pace = 0;
  /** factor on the time that cutting takes */ private slow = 1;
  /** kg of each piece of the stint; 0 while nothing is cut */ private readonly masses: number[] = [];

  constructor(private readonly stint: Stint, private readonly turnTime: number) {}

  /** To fill a truck that has come alongside: `changeover` s, then cutting until it holds `room` kg or the field is bare. */
  into(trip: Trip, room: number, crop: StandingCrop, { pace, slow, changeover }: { pace: Pace; slow: number; changeover: number }): Wait {
    const { stint, masses } = this;
    this.trip = trip;
    this.crop = crop;
    this.pace = pace;
    this.slow = slow;
    stint.at(crop.index);
    if (changeover > 0) masses[stint.then("changeover", changeover)] = 0;
    const ahead = crop.imagined;
    for (let mass = 0; room - mass > NOTHING * room && ahead.left > 0;) {
      if (ahead.owesTurn) {
        ahead.owesTurn = false;
        masses[stint.then("turning", this.turnTime)] = 0;
      }
      const piece = ahead.pieceFor(room - mass);
      masses[stint.then("cutting", ahead.secondsFor(piece, pace) * slow)] = piece;
      mass += ahead.cut(piece, pace);
    }
    return stint;
  }

  /** It is over, or was broken off: what was cut by now lies in the truck. */
  end(): void {
    const { stint, crop, pace, masses } = this;
    for (let piece = 0; piece < stint.done; piece++) {
      if (stint.stateOf(piece) === "turning") crop.owesTurn = false;
      else if (masses[piece]! > 0) this.load(piece, masses[piece]!);
    }
    if (stint.isOver || stint.stateOf(stint.done) !== "cutting") return;
    const whole = crop.secondsFor(masses[stint.done]!, pace);
    this.load(stint.done, crop.massAfter(whole - stint.undone / this.slow, pace));
  }

  private load(piece: number, mass: number): void {
    const { trip } = this;
    if (trip.mass === 0) trip.fillFrom = this.stint.beganAt(piece);
    trip.mass += this.crop.cut(mass, this.pace);
  }
}
