import {InputError} from "../errors.ts";
import {quantileOf} from "./distribution.ts";
import {jointNormal} from "./joint.ts";
import type {Distribution, JointNormal} from "./types.ts";

/** One uncertain quantity, or several that vary together. */
export type Input =
  | {readonly name: string; readonly distribution: Distribution}
  | {readonly name: string; readonly members: readonly string[]; readonly joint: JointNormal};

export interface InputMap {
  readonly dimensions: number; // coordinates of a point
  readonly names: readonly string[]; // one for each coordinate and value
  readonly groups: readonly (readonly number[])[]; // one for each input, for sobolDesign
  readonly groupNames: readonly string[];
  /** Values of all quantities at a point, in the order of `names`. */
  readonly values: (point: ArrayLike<number>) => Float64Array;
}

/**
 * Maps points of the unit cube to values of the inputs. Quantities that vary together are one group: taken singly their
 * shares of a variance could not be told apart.
 *
 * @throws InputError "domain" or "shape" from the distributions; "shape" when a joint input has not as many names as means
 */
export function inputMap(inputs: readonly Input[]): InputMap {
  if (inputs.length === 0) throw new InputError("domain", "inputs.length", 0, "≥ 1");
  const names = inputs.flatMap(input => ("joint" in input ? input.members : [input.name]));
  const maps: {readonly start: number; readonly size: number; readonly of: (u: ArrayLike<number>) => Float64Array}[] =
    [];
  let start = 0;
  for (const input of inputs) {
    const map = "joint" in input ? jointMap(input) : singleMap(input);
    maps.push({start, ...map});
    start += map.size;
  }
  const dimensions = start;
  return {
    dimensions,
    names,
    groups: maps.map(map => Array.from({length: map.size}, (_, k) => map.start + k)),
    groupNames: inputs.map(input => input.name),
    values: point => {
      if (point.length !== dimensions) throw new InputError("shape", "point.length", point.length, `${dimensions}`);
      const out = new Float64Array(dimensions);
      for (const {start, size, of} of maps)
        out.set(of(Float64Array.from({length: size}, (_, k) => point[start + k])), start);
      return out;
    },
  };
}

type Mapped = {readonly size: number; readonly of: (u: ArrayLike<number>) => Float64Array};

function singleMap({distribution}: {readonly distribution: Distribution}): Mapped {
  const quantile = quantileOf(distribution);
  return {size: 1, of: u => Float64Array.of(quantile(u[0]))};
}

function jointMap({members, joint}: {readonly members: readonly string[]; readonly joint: JointNormal}): Mapped {
  if (members.length !== joint.mean.length)
    throw new InputError("shape", "members.length", members.length, `${joint.mean.length}, one for each mean`);
  return {size: members.length, of: jointNormal(joint)};
}
