import {InputError, requirePositive} from "../errors.ts";
import type {FatiguePoint, StrainLevel} from "./fatigueTypes.ts";
import {specimenStrain} from "./specimens.ts";
import type {FatigueProgramme, Specimen} from "./types.ts";

/** Points of each material, materials in the order in which they come. */
export function pointsByMaterial(programme: FatigueProgramme): ReadonlyMap<string, readonly FatiguePoint[]> {
  const materials = new Map<string, FatiguePoint[]>();
  programme.specimens.forEach((specimen, i) => {
    const points = materials.get(specimen.material) ?? [];
    points.push(pointOf(specimen, i));
    materials.set(specimen.material, points);
  });
  return materials;
}

function pointOf(specimen: Specimen, index: number): FatiguePoint {
  const path = `specimens[${index}]`;
  const {name, setAside} = specimen;
  return {specimen: index, name, strain: specimenStrain(specimen, path), ...lifeOf(specimen, path), setAside};
}

/** Life as told, or as the history tells it: failed where it fell to half, a run-out where it never did. */
function lifeOf(specimen: Specimen, path: string): {readonly cycles: number; readonly runOut: boolean} {
  const {cycles, runOut, history} = specimen;
  if (cycles !== null) {
    requirePositive(`${path}.cycles`, cycles, "cycles");
    return {cycles, runOut};
  }
  if (history === null)
    throw new InputError("domain", `${path}.cycles`, cycles, "cycles, or a history that tells them");
  if (history.cyclesToHalf === null) return {cycles: history.lastCycle, runOut: true};
  if (runOut)
    throw new InputError(
      "domain",
      `${path}.runOut`,
      runOut,
      `false: by its history it failed at ${history.cyclesToHalf}`,
    );
  return {cycles: history.cyclesToHalf, runOut: false};
}

/** Strains nearer to the mean of a level than this part of it belong to it. Machines hold a strain to about 1 % [–]. */
const LEVEL_WIDTH = 0.025;

/** Groups points that are not set aside into levels of nearly equal strain, from the lowest up. */
export function strainLevels(points: readonly FatiguePoint[]): StrainLevel[] {
  const order = points.flatMap((point, i) => (point.setAside === null ? [i] : []));
  order.sort((i, j) => points[i].strain - points[j].strain);
  const levels: {strain: number; points: number[]}[] = [];
  for (const i of order) {
    const level = levels[levels.length - 1];
    if (level === undefined || points[i].strain > (1 + LEVEL_WIDTH) * level.strain) {
      levels.push({strain: points[i].strain, points: [i]});
    } else {
      level.points.push(i);
      level.strain += (points[i].strain - level.strain) / level.points.length;
    }
  }
  return levels;
}
