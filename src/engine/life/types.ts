import type {PavementTemperatures, SurfaceExchange, WeatherRecord} from "../climate/types.ts";
import type {Costs} from "../cost/types.ts";
import type {TestedPosition} from "../response/index.ts";
import type {Section} from "../section/types.ts";
import type {Traffic} from "../traffic/types.ts";

/** One way to treat the pavement: its complete section, ready to be solved. */
export interface Treatment {
  readonly name: string;
  readonly description: string;
  readonly section: Section;
}

/** A span of overlay temperature and its share of the traffic. */
export interface TemperatureBin {
  readonly temperature: number; // representative overlay temperature [°C]
  readonly share: number; // of the year's passes [–]; shares sum to 1
}

export interface Study {
  readonly name: string;
  readonly treatments: readonly Treatment[]; // the first is the control
  readonly traffic: Traffic;
  readonly weather: WeatherRecord | null; // null: no thermal mechanism; then bins must be given
  readonly exchange: SurfaceExchange;
  readonly bins: readonly TemperatureBin[] | {readonly kind: "derive"; readonly count: number};
  readonly neutralTemperature: number | null; // at which the tip is strain-free [°C]; null: the mean of the record
  readonly analysisPeriod: number; // [years]
  readonly accuracy: number; // relative, in tip strain [–]; default 0.01
  readonly costs: Costs | null; // null: nobody gave prices. No life depends on it
}

/** A life. Beyond the horizon of the integration it is censored: the true life is longer than `years`. */
export interface Life {
  readonly years: number; // [years]
  readonly passes: number; // of all classes together, up to then [–]
  readonly standardAxles: number; // equivalent passes of the standard axle by the fourth-power law [–]
  readonly censored: boolean;
}

export type Scenario = "traffic" | "thermal" | "together";

/** Crack fronts against time for one scenario, at the accepted steps of the integration. */
export interface CrackHistory {
  readonly scenario: Scenario;
  readonly years: Float64Array; // [years], ascending from 0
  readonly passes: Float64Array; // cumulative, all classes [–]
  readonly interlayer: Float64Array; // lower front within the interlayer, from the joint up [m]; 0 without interlayer
  readonly underside: Float64Array; // lower or restarted front within the overlay, from its underside up [m]
  readonly surface: Float64Array; // upper front, from the surface down [m]
  readonly failed: boolean; // the fronts met within the horizon
  readonly life: Life;
  /** When cracked depth (underside + surface) passed 25, 50 and 75 % of the overlay [years]; Infinity when not reached. */
  readonly milestones: readonly {readonly fraction: number; readonly years: number; readonly passes: number}[];
  readonly worstFront: "lower" | "upper"; // which front ran the longer way through the overlay
}

export type OrdinaryMechanism = "underside fatigue" | "near-surface fatigue";

/** Fatigue away from the joint, from the uncut section. */
export interface OrdinaryLife {
  readonly mechanism: OrdinaryMechanism;
  readonly layer: string;
  readonly depth: number; // of the critical point [m]
  readonly strain: number; // largest over the bins, under the worst class [–]
  readonly life: Life;
}

/** Tip strain against crack length with no other crack, worst lateral offset, for the report and the reader's judgement. */
export interface TipStrainCurve {
  readonly front: "interlayer" | "underside" | "surface";
  readonly cause: "traffic" | "thermal";
  readonly label: string; // load class and temperature, or the size of the thermal cycle
  readonly length: Float64Array; // [m]
  readonly strain: Float64Array; // [–]
}

export type Mechanism =
  | "reflection by traffic"
  | "reflection by temperature"
  | "reflection, both together"
  | OrdinaryMechanism;

/** What one load class is worth on this section, by reflection under traffic. */
export interface ClassEquivalence {
  readonly loadClass: string;
  readonly group: string | null; // axle group or gear that it is one load of
  readonly load: number; // on all its wheels [N]
  readonly passesPerYear: number; // in the first year [1/year]
  readonly passesToFailure: number; // of this class alone [–]; Infinity when it never comes to that
  readonly factor: number; // passes of the reference that one of its passes is worth [–]
  readonly fourthPower: number; // the same by the fourth-power law, for comparison [–]
  readonly share: number; // of the first year's damage [–]
  readonly passesPerCoverage: number; // [–]
}

/** How damage grows with load within one axle group or gear: factor ∝ load^exponent. */
export interface LoadExponent {
  readonly group: string;
  readonly exponent: number; // [–]
  readonly lightest: number; // load that it was found from [N]
  readonly heaviest: number; // … and to [N]
}

export interface TrafficEquivalence {
  readonly reference: string; // what a factor of 1 stands for
  readonly classes: readonly ClassEquivalence[]; // that pass at all
  readonly exponents: readonly LoadExponent[];
}

export interface JointTransfer {
  readonly spring: number; // q as used [Pa/m]
  readonly efficiency: number; // as computed on the bare jointed layer [–]
  readonly tested: readonly TestedPosition[]; // positions of a deflection test that the spring comes from
}

export interface JointMovement {
  readonly free: number; // over the year, α·L·ΔT [m]
  readonly computed: number; // with friction and the overlay holding on [m]
  readonly perDegree: number; // computed [m/K]
}

export interface TreatmentLife {
  readonly treatment: Treatment;
  readonly temperatures: PavementTemperatures | null;
  readonly bins: readonly TemperatureBin[];
  readonly transfer: JointTransfer | null; // null: no traffic
  readonly jointMovement: JointMovement | null; // null: no temperature record
  readonly histories: readonly CrackHistory[]; // one per scenario computed
  readonly equivalence: TrafficEquivalence | null; // null: no traffic
  readonly ordinary: readonly OrdinaryLife[];
  readonly governing: {readonly mechanism: Mechanism; readonly life: Life};
  readonly tipStrain: readonly TipStrainCurve[];
  /** Rainflow of the tip strain with no crack over the record, cycles a year by range. */
  readonly thermalCycles: {
    readonly front: "interlayer" | "underside" | "surface";
    readonly range: Float64Array;
    readonly perYear: Float64Array;
  } | null;
  /** Life over the control's life, scenario by scenario; left out where either is censored or not computed. */
  readonly ratioToControl: Readonly<Partial<Record<Scenario | "governing", number>>>;
  readonly warnings: readonly string[];
}

export interface LifeResult {
  readonly study: Study;
  readonly treatments: readonly TreatmentLife[];
}
