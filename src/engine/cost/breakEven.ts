import {InputError} from "../errors.ts";
import {costOf, meanOf, quantile} from "./costOf.ts";
import type {BreakEven, CostOptions, Rates, TreatmentWorks, Works} from "./types.ts";
import {materialAmount} from "./works.ts";
import {cycleOf, worthWeights} from "./worth.ts";

/** Probability with which an added layer should pay, when nothing else is said [–]. */
export const USUAL_PROBABILITY = 0.85;

export interface BreakEvenRequest {
  readonly treated: TreatmentWorks;
  readonly control: TreatmentWorks;
  readonly rates: Rates;
  readonly lives: {readonly treated: ArrayLike<number>; readonly control: ArrayLike<number>}; // [years], from the same draws
  readonly options: CostOptions;
  readonly probability?: number; // 0 to 1 [–]; left out: 0.85
}

/**
 * The price of the interlayer's material, or of the reinforcement, at which the treatment costs as much as the control over
 * the period. Present worth is a straight line in that price, W = a + b·p with p a square metre of first construction, so in
 * each draw the price is (W_control − a)/b; equal in the mean at (mean W_control − mean a)/mean b, and not dearer with
 * probability q at the (1 − q) quantile of the draws' prices.
 *
 * @returns null where nothing was added that the control has not, or where in some draw no price brings it level: all of it is left at the end
 * @throws InputError "domain" | "shape"
 */
export function breakEven(request: BreakEvenRequest): BreakEven | null {
  const {treated, control, rates, lives, options, probability = USUAL_PROBABILITY} = request;
  if (!(probability > 0 && probability < 1)) throw new InputError("domain", "probability", probability, "0 to 1 [–]");
  if (lives.treated.length !== lives.control.length)
    throw new InputError("shape", "lives", `${lives.treated.length} and ${lives.control.length}`, "as many of both");
  const added = addedBy(treated.first);
  if (added === null || partOf(added, control.first) > 0) return null;
  const paid = amountOf(added, treated.first, rates);
  const again = partOf(added, treated.renewal) / partOf(added, treated.first);
  const worth = costOf({works: treated, rates}, lives.treated, options).presentWorth;
  const other = costOf({works: control, rates}, lives.control, options).presentWorth;
  const slope = worth.map((_, k) => {
    const weights = worthWeights(cycleOf(lives.treated[k], treated.renewalLife, options), options.discountRate);
    return weights.first + again * weights.renewal;
  });
  if (slope.some(b => !(b > 0))) return null;
  const without = worth.map((w, k) => w - slope[k] * paid);
  const perArea = (meanOf(other) - meanOf(without)) / meanOf(slope);
  const each = worth.map((_, k) => (other[k] - without[k]) / slope[k]).sort();
  const perAreaSure = quantile(each, 1 - probability);
  const thickness = added === "interlayer" ? partOf(added, treated.first) : null;
  const perVolume = (price: number): number | null => (thickness === null ? null : price / thickness);
  return {
    subject: added,
    perArea,
    perVolume: perVolume(perArea),
    probability,
    perAreaSure,
    perVolumeSure: perVolume(perAreaSure),
    paid,
  };
}

function addedBy(works: Works): BreakEven["subject"] | null {
  if (works.layers.some(({role}) => role === "interlayer")) return "interlayer";
  return works.reinforcement === null ? null : "reinforcement";
}

/** How much of it an operation has: thickness [m], or whether a reinforcement is laid [–]. */
function partOf(added: BreakEven["subject"], works: Works): number {
  if (added === "reinforcement") return works.reinforcement === null ? 0 : 1;
  return works.layers.reduce((sum, {role, thickness}) => sum + (role === "interlayer" ? thickness : 0), 0);
}

/** What it costs by the rates [cur/m²]. */
function amountOf(added: BreakEven["subject"], works: Works, rates: Rates): number {
  if (added === "reinforcement") return rates.reinforcements[works.reinforcement!];
  const layers = works.layers.filter(({role}) => role === "interlayer");
  return layers.reduce((sum, layer) => sum + materialAmount(layer, rates), 0);
}
