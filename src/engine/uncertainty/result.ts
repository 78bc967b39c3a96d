import type {ChangedLife, Study} from "../life/index.ts";
import type {SobolIndices} from "../risk/index.ts";
import type {Sample, TreatmentRisk} from "./summary.ts";
import type {InputSwing} from "./swings.ts";
import type {RiskPlan} from "./types.ts";

/** How sure the lives of a study are. */
export interface RiskResult {
  readonly study: Study;
  readonly plan: RiskPlan;
  readonly base: readonly ChangedLife[]; // of the study as it is
  readonly times: Float64Array; // of the fans [years]
  readonly treatments: readonly TreatmentRisk[];
  readonly swings: readonly InputSwing[];
  /** Sobol indices of ln life, and of ln ratio to the control, over the inputs that need no section solved anew; null without two. */
  readonly indices: {
    readonly names: readonly string[]; // of the inputs
    readonly lives: readonly (SobolIndices | null)[]; // by treatment; null where the life does not vary
    readonly ratios: readonly (SobolIndices | null)[]; // by treatment but the control
  } | null;
  /** By treatment: part of the variance of ln life that comes from what needs sections solved anew [–]; null without such. */
  readonly structural: readonly (number | null)[];
  readonly samples: readonly Sample[];
  readonly solutions: number; // of sections
  readonly refused: {readonly count: number; readonly first: string | null}; // samples that are no possible study
  readonly trace: readonly {readonly samples: number; readonly errors: readonly (number | null)[]}[]; // by treatment
  readonly reached: boolean; // the standard error asked for
  readonly finished: boolean; // false: a picture on the way, without swings and indices
}
