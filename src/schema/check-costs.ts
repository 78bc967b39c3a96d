import {cracksSlabs} from "./costs.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {nearest} from "./nearest.ts";
import type {CostsDocument, Partially, StudyDocument} from "./study.ts";

type Loose = Partially<StudyDocument>;
type LooseCosts = Partially<CostsDocument>;

/** What of each treatment must have a price, by name. */
interface Needed {
  readonly materials: readonly string[];
  readonly reinforcements: readonly string[];
}

/** Prices against the materials and treatments they are for. */
export function checkCosts(document: Loose, findings: Findings): void {
  const {costs} = document;
  if (!costs) return;
  const needed = neededBy(document, costs);
  checkRenewals(document, costs, findings);
  checkTable({document, needed, table: costs, path: ["costs"], both: ["price_per_m3", "price_per_tonne"]}, findings);
  checkOperations(document, costs, findings);
  if (costs.carbon)
    checkTable(
      {
        document,
        needed,
        table: costs.carbon,
        path: ["costs", "carbon"],
        both: ["kg_CO2e_per_m3", "kg_CO2e_per_kg"],
      },
      findings,
    );
}

function neededBy(document: Loose, costs: LooseCosts): Needed {
  const overlay = (document.section?.layers ?? []).filter(layer => layer?.role === "overlay");
  const treatments = document.treatments ?? [];
  const materials = treatments.flatMap(treatment => {
    const changes = treatment?.changes;
    const courses = overlay.map(
      layer =>
        changes?.layers?.find(change => change?.name !== undefined && change.name === layer?.name)?.material ??
        layer?.material,
    );
    return [...courses, changes?.interlayer?.material];
  });
  const renewals = costs.renewals ?? [];
  const later = renewals.flatMap(renewal => (renewal?.layers ?? []).map(layer => layer?.material));
  const reinforcements = [
    ...treatments.map(treatment => treatment?.changes?.reinforcement?.name),
    ...renewals.map(renewal => renewal?.reinforcement),
  ];
  return {materials: distinct([...materials, ...later]), reinforcements: distinct(reinforcements)};
}

function distinct(names: readonly (string | undefined)[]): string[] {
  return [...new Set(names)].filter(name => name !== undefined);
}

interface Table {
  readonly document: Loose;
  readonly needed: Needed;
  readonly table: LooseCosts | NonNullable<LooseCosts["carbon"]>;
  readonly path: DocumentPath;
  readonly both: readonly [byVolume: string, byMass: string];
}

/** Names that are known, nothing left out, each given once. */
function checkTable({document, needed, table, path, both}: Table, findings: Findings): void {
  const known = Object.keys(document.materials ?? {});
  const at = [...path, "materials"];
  const priced = table.materials ?? {};
  checkNames(Object.keys(priced), {known, at, what: "material"}, findings);
  for (const [name, rates] of Object.entries(priced)) {
    const given = both.filter(key => (rates as Readonly<Record<string, unknown>> | undefined)?.[key] !== undefined);
    const told = both.some(key => findings.faulty([...at, name, key])) || findings.faulty([...at, name]);
    if (given.length === 2 || (given.length === 0 && !told))
      findings.fault([...at, name], {
        problem:
          given.length === 2 ? "it is given twice, by volume and by mass" : "it is given neither by volume nor by mass",
        accepted: `either ${both[0]} or ${both[1]}`,
      });
  }
  requireAll(needed.materials, {given: priced, at, among: known, example: `{${both[0]}: …}`}, findings);
  const example = path.includes("carbon") ? "{kg_CO2e_per_m2: …}" : "{price_per_m2: …}";
  const laid = table.reinforcements ?? {};
  const where = [...path, "reinforcements"];
  const unpriced = needed.reinforcements.filter(name => !Object.hasOwn(laid, name));
  for (const name of Object.keys(laid)) {
    if (needed.reinforcements.includes(name)) continue;
    // Another that has no price may be meant; else the price waits for a treatment that lays it again.
    if (nearest(name, unpriced) !== null)
      checkNames([name], {known: needed.reinforcements, at: where, what: "reinforcement"}, findings);
    else
      findings.warn([...where, name], {
        problem: "no treatment lays a reinforcement of this name",
        found: JSON.stringify(name),
        accepted: needed.reinforcements.join(", ") || "nothing: none is laid",
      });
  }
  requireAll(needed.reinforcements, {given: laid, at: where, among: null, example}, findings);
}

interface Names {
  readonly known: readonly string[];
  readonly at: DocumentPath;
  readonly what: string;
}

function checkNames(names: readonly string[], {known, at, what}: Names, findings: Findings): void {
  for (const name of names) {
    if (known.includes(name)) continue;
    const meant = nearest(name, known);
    findings.fault([...at, name], {
      problem: `there is no ${what} of this name`,
      found: JSON.stringify(name),
      accepted: known.join(", ") || `no ${what}: none is laid`,
      suggestion: meant === null ? null : `did you mean ${meant}?`,
      ...(meant !== null && {covers: [...at, meant]}),
    });
  }
}

interface Required {
  readonly given: Readonly<Record<string, unknown>>;
  readonly at: DocumentPath;
  readonly among: readonly string[] | null; // those that are known at all; others are told elsewhere
  readonly example: string;
}

function requireAll(names: readonly string[], {given, at, among, example}: Required, findings: Findings): void {
  for (const name of names) {
    if (Object.hasOwn(given, name) || findings.faulty([...at, name])) continue;
    if (among !== null && !among.includes(name)) continue;
    findings.fault([...at, name], {
      problem: `${name} is laid, and nothing is said of it here`,
      found: `no entry ${JSON.stringify(name)}`,
      accepted: `${name}: ${example}`,
    });
  }
}

function checkOperations(document: Loose, costs: LooseCosts, findings: Findings): void {
  const path = ["costs", "operations"];
  const {operations} = costs;
  const missing = (key: string, problem: string): void => {
    if (!findings.faulty([...path, key]))
      findings.fault([...path, key], {problem, accepted: "a price ≥ 0; 0 where another price includes it"});
  };
  const spacing = document.section?.joint?.spacing_m;
  const cracked = (document.treatments ?? []).find(t => t?.changes && cracksSlabs(t.changes, spacing));
  if (cracked && operations?.cracking_per_m2 === undefined)
    missing("cracking_per_m2", `the treatment ${cracked.name ?? ""} cracks the jointed layer, and that has no price`);
  const everyOne = document.treatments?.every(t =>
    costs.renewals?.some(r => r?.treatment === t?.name && r?.planing_mm === 0),
  );
  const planes = (costs.first_construction?.planing_mm ?? 0) > 0 || everyOne !== true;
  const depthFaulty = findings.faulty([...path, "planing_per_m2_and_mm"]);
  const priced = operations?.planing_per_m2 !== undefined || operations?.planing_per_m2_and_mm !== undefined;
  if (planes && !priced && !depthFaulty) missing("planing_per_m2", "layers are planed off, and that has no price");
}

function checkRenewals(document: Loose, costs: LooseCosts, findings: Findings): void {
  const renewals = costs.renewals ?? [];
  const at = ["costs", "renewals"];
  const treatments = distinct((document.treatments ?? []).map(t => t?.name));
  const materials = Object.keys(document.materials ?? {});
  for (const [k, renewal] of renewals.entries()) {
    const told = (key: string, name: string, known: readonly string[], what: string): void => {
      if (known.includes(name) || known.length === 0) return;
      const meant = nearest(name, known);
      findings.fault([...at, k, ...key.split(".").map(part => (/^\d+$/.test(part) ? Number(part) : part))], {
        problem: `there is no ${what} of this name`,
        accepted: known.join(", "),
        suggestion: meant === null ? null : `did you mean ${meant}?`,
      });
    };
    if (renewal?.treatment !== undefined) told("treatment", renewal.treatment, treatments, "treatment");
    for (const [j, layer] of (renewal?.layers ?? []).entries())
      if (layer?.material !== undefined) told(`layers.${j}.material`, layer.material, materials, "material");
    checkPlaned(renewal, [...at, k], findings);
  }
  for (const [k, renewal] of renewals.entries())
    if (renewal?.treatment !== undefined && renewals.findIndex(r => r?.treatment === renewal.treatment) < k)
      findings.fault([...at, k, "treatment"], {
        problem: "the renewal of this treatment is described twice",
        accepted: "one entry for each treatment",
      });
}

/** A surface that rises or sinks at every renewal is worth a look. */
function checkPlaned(
  renewal: Partially<CostsDocument["renewals"][number]> | undefined,
  path: DocumentPath,
  findings: Findings,
): void {
  const planed = renewal?.planing_mm;
  const thickness = renewal?.layers?.map(layer => layer?.thickness_mm);
  if (planed === undefined || !thickness || thickness.includes(undefined)) return;
  const laid = (thickness as number[]).reduce((sum, h) => sum + h, 0);
  if (planed > laid)
    findings.warn([...path, "planing_mm"], {
      problem: "more is planed off than is laid, each time",
      accepted: `up to ${laid} mm, the thickness of the layers laid`,
    });
}
