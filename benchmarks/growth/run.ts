/**
 * How the time of a response model's parts grows with the mesh, wavenumbers, wheel positions, crack states and layers of
 * the road section, on one thread. One JSON line a series on standard output, with the exponent of the power law that
 * fits it best.
 *
 *   node benchmarks/growth/run.ts
 */
import {type Geometry, type Patch, responseGeometry, stateSpace} from "../../src/engine/response/index.ts";
import {waveSolver} from "../../src/engine/response/respond.ts";
import {modulusAt, type Section} from "../../src/engine/section/index.ts";
import {straightLine} from "../../src/engine/statistics/index.ts";
import {tell} from "../line.ts";
import {crackLengthsOf, MESHES, meshOf, type Subject, subjects} from "../section.ts";
import {timesOf} from "../times.ts";
import type {GrowthLine} from "./line.ts";
import {PARTS, partTimes} from "./parts.ts";

const ACCURACIES = [0.02, 0.01, 0.005, 0.0025, 0.00125]; // by them the size of elements [–]
const WAVES = [4, 8, 16, 32];
const WHEELS = [6, 12, 24, 48, 96];
const SHARES = [0.25, 0.4, 0.55, 0.75, 1]; // of the crack lengths
const FOUNDATION_LAYERS = [1, 2, 4, 8, 16];

type Along = GrowthLine["along"];
type Sizes = {readonly size: number; readonly values: Readonly<Record<string, number>>}[];

const [subject] = subjects();
const {section, accuracy, reach, patches} = subject.request;
const geometry = responseGeometry(section, {accuracy, reach});
const cracks = crackLengthsOf(section, geometry.meshes[0].space); // of the road, whatever the mesh

report("elements", elements());
report("wavenumbers", wavenumbers());
report("wheel positions", wheels());
report("crack states", states());
report("layers", layers());

/** The same crack states on finer and finer meshes. */
function elements(): Sizes {
  return ACCURACIES.flatMap(own => {
    const finer = responseGeometry(section, {accuracy: own, reach, cracks});
    return MESHES.map(name => sized(finer, name, subject, g => g.model.mesh.grid.elements.length));
  }).sort((p, q) => p.size - q.size);
}

/** All that a solver does once it is there. */
function wavenumbers(): Sizes {
  const solve = waveSolver(geometry, 0, subject.condition, patches);
  return WAVES.map(count => {
    const betas = Array.from({length: count}, (_, k) => geometry.waves.beta[k % geometry.waves.beta.length]);
    const {ms} = timesOf(() => betas.forEach(beta => void solve(beta)), {warmUp: 1, runs: 5});
    return {size: count, values: {"whole wavenumbers": ms}};
  });
}

function wheels(): Sizes {
  const [{length}] = patches;
  const {model, space} = geometry.meshes[0];
  return WHEELS.map(count => {
    const last = reach - length;
    const patch: Patch = {length, centres: Float64Array.from({length: count}, (_, k) => (k * last) / (count - 1))};
    return {size: count, values: partTimes({section, condition: subject.condition, model, space, patch})};
  });
}

/** Fewer crack lengths on the same mesh. */
function states(): Sizes {
  const {model} = geometry.meshes[0];
  return SHARES.map(share => {
    const few = {...cracks, interlayer: someOf(cracks.interlayer, share), overlay: someOf(cracks.overlay, share)};
    const space = stateSpace(model, few);
    const values = partTimes({section, condition: subject.condition, model, space, patch: patches[0]});
    return {size: space.states.length, values};
  });
}

/** A part of a list, evenly: its first and its last are always in it. */
function someOf(list: readonly number[], share: number): number[] {
  const count = Math.max(2, Math.round(share * list.length));
  return Array.from({length: count}, (_, k) => list[Math.round((k * (list.length - 1)) / (count - 1))]);
}

/** The foundation cut into layers of equal thickness, each stiffer than the one below it. */
function layers(): Sizes {
  return FOUNDATION_LAYERS.map(count => {
    const cut: Section = {
      ...section,
      layers: section.layers.flatMap(layer => {
        if (layer.role !== "foundation") return [layer];
        return Array.from({length: count}, (_, k) => {
          return {...layer, name: `${layer.name} ${k + 1}`, thickness: layer.thickness / count};
        });
      }),
    };
    let below = 0;
    const moduli = cut.layers.map(({material, role}) => {
      const stiffer = role === "foundation" ? 1 + (count - ++below) / count : 1;
      return stiffer * modulusAt(material, 20);
    });
    const own = {...subject, condition: {...subject.condition, moduli}, request: {...subject.request, section: cut}};
    return sized(responseGeometry(cut, {accuracy, reach}), "coarse", own, () => cut.layers.length);
  });
}

function sized(
  of: Geometry,
  name: (typeof MESHES)[number],
  {condition, request}: Subject,
  sizeOf: (mesh: ReturnType<typeof meshOf>) => number,
): Sizes[number] {
  const own = meshOf(of, name);
  const times = partTimes({section: request.section, condition, ...own, patch: request.patches[0]});
  return {size: sizeOf(own), values: {...times, flop: own.model.plan.flops}};
}

function report(along: Along, sizes: Sizes): void {
  for (const part of [...PARTS, "whole wavenumbers", "flop"] as const) {
    if (!(part in sizes[0].values)) continue;
    const points = sizes.map(({size, values}) => ({size, value: values[part]}));
    tell({what: "growth", along, part, points, exponent: exponentOf(points)} satisfies GrowthLine);
  }
}

/** Slope of the straight line through the logarithms. */
function exponentOf(points: GrowthLine["points"]): number {
  const logarithms = (of: "size" | "value"): number[] => points.map(p => Math.log(p[of]));
  return straightLine(logarithms("size"), logarithms("value")).slope;
}
