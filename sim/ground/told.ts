/** Sentences for the reader about what was taken, closed or left out, none of them a fault; bounded in number. */
import { MAP_LIMITS } from "./limits.ts";

export class Told {
  private readonly sentences: string[] = [];
  private count = 0;

  add(sentence: string): void {
    this.count += 1;
    if (this.count <= MAP_LIMITS.told) this.sentences.push(sentence);
  }

  get list(): readonly string[] {
    const over = this.count - MAP_LIMITS.told;
    return over > 0 ? [...this.sentences, `And ${over} more of this kind.`] : this.sentences;
  }
}
