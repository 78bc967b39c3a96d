import type {BeamCourse, BeamFoundation, BeamTest} from "../../engine/laboratory/types.ts";
import type {BeamRole} from "./beam-roles.ts";
import {type LaboratoryFault, mm, wholeFault} from "./fault.ts";
import type {RowReader} from "./rows.ts";
import type {Table} from "./tabular.ts";

/** Poisson ratios that are taken when none is given: usual for asphalt, and for concrete and cement-bound blocks. */
const usualPoisson = {overlay: 0.35, interlayer: 0.35, base: 0.2} as const;

type Reader = RowReader<BeamRole>;

/** The beam of one row, without its readings; null when it is faulty, which the reader tells. */
export function beamOf(
  reader: Reader,
  name: string,
  warnings: LaboratoryFault[],
  table: Table<BeamRole>,
): Omit<BeamTest, "readings" | "readingError"> | null {
  const poisson = (course: keyof typeof usualPoisson): number => {
    const given = reader.number(`${course}Poisson`);
    if (given !== null) return given;
    const problem = `the Poisson ratio of the ${course} is not given: ${usualPoisson[course]} is taken`;
    const accepted = "numbers from 0 to 0.499";
    warnings.push(wholeFault(table.file, reader.place, {problem, found: "nothing (empty)", accepted}));
    return usualPoisson[course];
  };
  const course = (which: "overlay" | "interlayer"): BeamCourse | null => {
    const material = reader.neededText(`${which}Material`);
    const thickness = reader.needed(`${which}Thickness`);
    const modulus = reader.needed(`${which}Modulus`);
    const ratio = poisson(which);
    return material === null || thickness === null || modulus === null
      ? null
      : {material, thickness, modulus, poisson: ratio};
  };
  const hasInterlayer = (
    ["interlayerMaterial", "interlayerThickness", "interlayerModulus", "interlayerPoisson"] as const
  ).some(reader.has);
  const overlay = course("overlay");
  const interlayer = hasInterlayer ? course("interlayer") : null;
  const base = {
    thickness: reader.needed("baseThickness"),
    modulus: reader.needed("baseModulus"),
    gap: reader.needed("gap"),
    poisson: poisson("base"),
  };
  const foundation = foundationOf(reader);
  const wheel = {
    load: reader.needed("wheelLoad"),
    length: reader.needed("contactLength"),
    width: reader.needed("contactWidth"),
  };
  const travel = travelOf(reader);
  const numbers = {
    length: reader.needed("length"),
    width: reader.needed("width"),
    speed: reader.needed("speed"),
    temperature: reader.needed("temperature"),
    detection: reader.needed("detection"),
  };
  const setAside = reader.text("setAside");
  if (
    !overlay ||
    (hasInterlayer && !interlayer) ||
    !complete(base) ||
    !foundation ||
    !complete(wheel) ||
    !travel ||
    !complete(numbers)
  )
    return null;
  checkFit(reader, {...numbers, gap: base.gap, contactWidth: wheel.width, travel});
  return {name, overlay, interlayer, base, foundation, wheel, travel, ...numbers, setAside};
}

type Complete<Values> = {readonly [Key in keyof Values]: NonNullable<Values[Key]>};

const complete = <Values extends object>(values: Values): values is Values & Complete<Values> =>
  Object.values(values).every(value => value !== null);

function checkFit(
  reader: Reader,
  beam: {
    readonly length: number;
    readonly width: number;
    readonly gap: number;
    readonly contactWidth: number;
    readonly travel: {readonly from: number; readonly to: number};
  },
): void {
  const {length, width, gap, contactWidth, travel} = beam;
  if (gap >= length)
    reader.fault({
      column: "gap",
      problem: "the gap is as long as the beam",
      found: `${mm(gap)} of ${mm(length)}`,
      accepted: "a gap shorter than the beam",
    });
  if (contactWidth > width * (1 + 1e-9))
    reader.fault({
      column: "contactWidth",
      problem: "the wheel is wider than the beam",
      found: `${mm(contactWidth)} on ${mm(width)}`,
      accepted: "a contact no wider than the beam",
    });
  if (travel.from < -length / 2 - 1e-9 || travel.to > length / 2 + 1e-9)
    reader.fault({
      problem: "the wheel leaves the beam",
      found: `travel from ${mm(travel.from)} to ${mm(travel.to)} on ${mm(length)}`,
      accepted: "a travel within half the beam length on either side of the gap",
    });
}

function foundationOf(reader: Reader): BeamFoundation | null {
  const ways = {
    stiffness: ["foundationStiffness"],
    sheets: ["sheets", "sheetThickness", "sheetModulus"],
    deflection: ["staticDeflection", "staticLoad"],
  } as const;
  const all = Object.values(ways).flat();
  const given = (Object.keys(ways) as (keyof typeof ways)[]).filter(way => ways[way].some(reader.has));
  if (given.length !== 1) {
    if (given.length === 0 && reader.unreadable(...all)) return null;
    const found = given.length === 0 ? "none of them" : given.join(" and ");
    reader.fault({
      problem:
        given.length === 0
          ? "what the blocks stand on is not given"
          : "what the blocks stand on is given more than once",
      found,
      accepted:
        "one of: foundation stiffness; sheets, sheet thickness and sheet modulus; static deflection and static load",
    });
    return null;
  }
  switch (given[0]) {
    case "stiffness": {
      const stiffness = reader.needed("foundationStiffness");
      return stiffness === null ? null : {kind: "stiffness", stiffness};
    }
    case "sheets":
      return sheetsOf(reader);
    case "deflection": {
      const [load, deflection] = [reader.needed("staticLoad"), reader.needed("staticDeflection")];
      const at = reader.number("deflectionAt");
      if (load === null || deflection === null) return null;
      return {kind: "deflection", load, deflection, ...(at === null ? {} : {at})};
    }
  }
}

/**
 * Sheets on a rigid plate as springs in series: k = E / (n·t) [Pa/m], E the modulus of a sheet in compression [Pa], n
 * sheets of thickness t [m]. For sheets that carry no shear from one place to the next, thin against the beam.
 */
function sheetsOf(reader: Reader): BeamFoundation | null {
  const [count, thickness, modulus] = [
    reader.needed("sheets"),
    reader.needed("sheetThickness"),
    reader.needed("sheetModulus"),
  ];
  if (count === null || thickness === null || modulus === null) return null;
  return {kind: "stiffness", stiffness: modulus / (count * thickness)};
}

function travelOf(reader: Reader): BeamTest["travel"] | null {
  const byEnds = (["travelFrom", "travelTo"] as const).some(reader.has);
  const byStroke = (["travelCentre", "stroke"] as const).some(reader.has);
  if (byEnds === byStroke) {
    if (byEnds || !reader.unreadable("travelFrom", "travelTo", "travelCentre", "stroke"))
      reader.fault({
        problem: byEnds ? "the travel of the wheel is given twice" : "the travel of the wheel is not given",
        accepted: "travel from and travel to, or travel centre and stroke",
      });
    return null;
  }
  const [first, second] = byEnds
    ? [reader.needed("travelFrom"), reader.needed("travelTo")]
    : [reader.needed("travelCentre"), reader.needed("stroke")];
  if (first === null || second === null) return null;
  const travel = byEnds ? {from: first, to: second} : {from: first - second / 2, to: first + second / 2};
  if (travel.from < travel.to) return travel;
  reader.fault({
    problem: "the travel of the wheel ends before it begins",
    found: `from ${mm(travel.from)} to ${mm(travel.to)}`,
    accepted: "a beginning below the end, such as -150 and 150 mm",
  });
  return null;
}
