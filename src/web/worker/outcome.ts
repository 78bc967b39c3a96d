import {Cancelled, InputError} from "../../engine/errors.ts";
import type {Outcome} from "./channel.ts";

/** What was asked cannot be done; the message is for people. */
export class Refused extends Error {
  constructor(message: string) {
    super(message);
    this.name = "Refused";
  }
}

/** What came of a computation, as plain data; only what nobody expects is thrown. */
export async function outcomeOf<T>(work: () => Promise<T> | T): Promise<Outcome<T>> {
  try {
    return {kind: "done", value: await work()};
  } catch (error) {
    if (error instanceof Cancelled) return {kind: "cancelled"};
    if (error instanceof InputError || error instanceof Refused || isAtPoint(error))
      return {kind: "failed", message: (error as Error).message};
    throw error;
  }
}

/** By its name: importing its class would take all computations into every thread. */
const isAtPoint = (error: unknown): boolean => (error as Error).name === "PointFaults";
