import {Cancelled} from "../engine/errors.ts";

/** Interrupted, with something to show for it. */
export class Stopped extends Cancelled {
  readonly kept: string; // for people, after "Interrupted; "

  constructor(kept: string) {
    super();
    this.name = "Stopped";
    this.kept = kept;
  }
}
