/** The document of a deflection bowl: unknown text in, a test for the engine or every fault out. */
import type {BowlLayer, BowlTest} from "../../engine/backanalysis/types.ts";
import type {Fault, Findings} from "../fault.ts";
import {collectFindings} from "../findings.ts";
import {fromMm, fromMPa, fromPercent} from "../si.ts";
import {parseSource} from "../source.ts";
import {checkStructure} from "../structure.ts";
import type {Partially} from "../study.ts";
import {type BowlDocument, bowlSchema} from "./bowl-fields.ts";

export type BowlOutcome =
  | {
      readonly kind: "bowl";
      readonly document: BowlDocument;
      readonly test: BowlTest;
      readonly warnings: readonly Fault[];
    }
  | {readonly kind: "faults"; readonly faults: readonly Fault[]; readonly warnings: readonly Fault[]};

/** Every fault is told at once; nothing is thrown. */
export function readBowl(text: string): BowlOutcome {
  const source = parseSource(text);
  const findings = collectFindings(source);
  if (source.broken) return {kind: "faults", faults: findings.faults, warnings: []};
  const {partial, whole} = checkStructure(source.raw, bowlSchema, findings);
  checkOffsets(partial, findings);
  checkDrops(partial, findings);
  checkLayers(partial, findings);
  const {faults, warnings} = findings;
  if (!whole || faults.length) return {kind: "faults", faults, warnings};
  return {kind: "bowl", document: whole, test: testOf(whole), warnings};
}

type Loose = Partially<BowlDocument>;

function checkOffsets({offsets_mm: offsets = [], plate}: Loose, findings: Findings): void {
  offsets.forEach((offset, i) => {
    const before = i > 0 ? offsets[i - 1] : undefined;
    if (offset !== undefined && before !== undefined && offset <= before)
      findings.fault(["offsets_mm", i], {
        problem: "the sensors do not go outward",
        accepted: `more than ${before} mm, the sensor before`,
      });
  });
  const radius = plate?.diameter_mm === undefined ? undefined : plate.diameter_mm / 2;
  offsets.forEach((offset, i) => {
    if (offset !== undefined && radius !== undefined && offset > 0 && offset < radius)
      findings.warn(["offsets_mm", i], {
        problem: "this sensor lies under the plate",
        accepted: `0, in the hole at its centre, or more than ${radius} mm`,
      });
  });
}

/** Rise of a deflection over that of the sensor further in which is more than scatter [–]. */
const RISE = 1.05;

function checkDrops({drops = [], offsets_mm: offsets}: Loose, findings: Findings): void {
  drops.forEach((drop, i) => {
    const own = drop?.deflections_um;
    if (!own || !offsets) return;
    const path = ["drops", i, "deflections_um"];
    if (own.length !== offsets.length && !findings.faulty(["offsets_mm"]))
      findings.fault(path, {
        problem: "there are not as many deflections as sensors",
        accepted: `${offsets.length} deflections, one for each of offsets_mm`,
      });
    own.forEach((d, k) => {
      const before = k > 0 ? own[k - 1] : undefined;
      if (d !== undefined && before !== undefined && d > RISE * before)
        findings.warn([...path, k], {
          problem: "the deflection grows outward",
          accepted: `at most about ${before} µm, that of the sensor before; a bowl gets shallower outward`,
        });
    });
  });
}

function checkLayers({layers = [], base, offsets_mm: offsets}: Loose, findings: Findings): void {
  layers.forEach((layer, j) => {
    if (!layer) return;
    const path = ["layers", j];
    const last = j === layers.length - 1;
    const at = [...path, "thickness_mm"];
    if (!last && layer.thickness_mm === undefined && !findings.faulty(at))
      findings.fault(at, {
        problem: "this field is missing",
        accepted: "a number > 0 [mm]; only the last layer has none",
      });
    if (last && layer.thickness_mm !== undefined)
      findings.fault(at, {
        problem: "the last layer has a thickness",
        accepted: "none: it reaches down to the base, and base: {rigid_at_mm: …} ends it",
      });
    checkModulus(layer, path, findings);
  });
  const unknown = layers.filter(l => l?.modulus_range_MPa !== undefined).length;
  if (layers.length && !unknown && !findings.faulty(["layers"]))
    findings.fault(["layers"], {problem: "every modulus is given: nothing is left to be found", accepted: RANGE});
  if (offsets && unknown > offsets.length)
    findings.fault(["layers"], {
      problem: `${unknown} moduli are to be found from ${offsets.length} sensors`,
      accepted: `at most ${offsets.length}, and better half as many`,
    });
  const depth = typeof base === "object" ? base.rigid_at_mm : undefined;
  const above = layers.slice(0, -1).reduce((sum, l) => sum + (l?.thickness_mm ?? 0), 0);
  if (depth !== undefined && depth <= above)
    findings.fault(["base", "rigid_at_mm"], {
      problem: "the rigid bottom lies within the layers above the last",
      accepted: `more than ${above} mm, their thickness`,
    });
}

const RANGE = "modulus_range_MPa: {low, high} for the layers whose modulus is not known";

function checkModulus(
  layer: NonNullable<NonNullable<Loose["layers"]>[number]>,
  path: readonly (string | number)[],
  findings: Findings,
): void {
  const {modulus_MPa: known, modulus_range_MPa: range} = layer;
  if (known !== undefined && range !== undefined)
    findings.fault([...path, "modulus_MPa"], {
      problem: "the modulus is given and to be found",
      accepted: "either modulus_MPa or modulus_range_MPa",
    });
  const told = ["modulus_MPa", "modulus_range_MPa"].some(key => findings.faulty([...path, key]));
  if (known === undefined && range === undefined && !told)
    findings.fault(path, {problem: "the layer has no modulus", accepted: `modulus_MPa; or ${RANGE}`});
  const {low, high, start} = range ?? {};
  if (low !== undefined && high !== undefined && low >= high)
    findings.fault([...path, "modulus_range_MPa", "high"], {
      problem: "the range is empty",
      accepted: `more than ${low} MPa, its low end`,
    });
  else if (start !== undefined && low !== undefined && high !== undefined && (start < low || start > high))
    findings.fault([...path, "modulus_range_MPa", "start"], {
      problem: "the start lies outside the range",
      accepted: `${low} to ${high} MPa`,
    });
}

function testOf(document: BowlDocument): BowlTest {
  const radius = fromMm(document.plate.diameter_mm) / 2;
  const {sensors, base} = document;
  return {
    radius,
    offsets: document.offsets_mm.map(fromMm),
    drops: document.drops.map(({load_kN, deflections_um}) => ({
      pressure: (load_kN * 1e3) / (Math.PI * radius * radius),
      deflections: deflections_um.map(d => d / 1e6),
    })),
    accuracy: {relative: fromPercent(sensors.accuracy_percent), absolute: sensors.accuracy_um / 1e6},
    layers: layersOf(document),
    base: base === "half-space" ? "half-space" : "rigid",
    probability: fromPercent(document.confidence_percent),
  };
}

function layersOf({layers, base}: BowlDocument): BowlLayer[] {
  const above = layers.slice(0, -1).reduce((sum, l) => sum + l.thickness_mm!, 0); // of all but the last: checkLayers
  const last = base === "half-space" ? Infinity : base.rigid_at_mm - above;
  return layers.map(({name, poisson, thickness_mm, modulus_MPa, modulus_range_MPa}, j) => ({
    name,
    poisson,
    thickness: fromMm(j === layers.length - 1 ? last : thickness_mm!),
    modulus: modulus_range_MPa
      ? {
          kind: "unknown",
          low: fromMPa(modulus_range_MPa.low),
          high: fromMPa(modulus_range_MPa.high),
          start: fromMPa(modulus_range_MPa.start ?? Math.sqrt(modulus_range_MPa.low * modulus_range_MPa.high)),
        }
      : {kind: "fixed", value: fromMPa(modulus_MPa!)}, // one of the two: checkModulus
  }));
}
