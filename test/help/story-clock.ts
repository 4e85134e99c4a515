/**
 * The test clock of a story in which the program dies and is started again: the story's time goes on from one
 * start to the next, and may run faster or slower in each.
 */
export class StoryClock {
  #factor: number;
  #since: number;

  /** `factor` seconds pass in each second; it has to be above 1. */
  constructor(factor: number) {
    this.#factor = factor;
    this.#since = Date.now();
  }

  /** Environment for a program that starts now. */
  get env(): { readonly STOVEHAND_TEST_CLOCK: string } {
    return { STOVEHAND_TEST_CLOCK: `${this.#factor}@${Math.round(this.#since)}` };
  }

  /** From the next start on, another pace; what has passed so far stays passed. */
  pace(factor: number): void {
    const now = Date.now();
    const gained = (now - this.#since) * (this.#factor - 1);
    this.#since = now - gained / (factor - 1);
    this.#factor = factor;
  }
}
