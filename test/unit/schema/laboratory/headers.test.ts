import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {beamRoles, readingRoles} from "../../../../src/schema/laboratory/beam-roles.ts";
import {delimiterOf} from "../../../../src/schema/laboratory/cells.ts";
import {readDate} from "../../../../src/schema/laboratory/dates.ts";
import {fatigueRoles} from "../../../../src/schema/laboratory/fatigue-roles.ts";
import {matchHeader, nearRole} from "../../../../src/schema/laboratory/headers.ts";
import {historyRoles} from "../../../../src/schema/laboratory/history-roles.ts";
import {decimalMarkOf, readNumber} from "../../../../src/schema/laboratory/numbers.ts";
import type {Catalogue} from "../../../../src/schema/laboratory/roles.ts";
import {quantityOf} from "../../../../src/schema/laboratory/roles.ts";
import {headerText} from "../../../../src/schema/laboratory/tabular.ts";
import {findUnit, fromSi, isDimensionless, toSi, units} from "../../../../src/schema/laboratory/units.ts";
import {readCrackWord, readFlag, wordKeys} from "../../../../src/schema/laboratory/words.ts";

const catalogues: Readonly<Record<string, Catalogue<string>>> = {
  fatigue: fatigueRoles,
  history: historyRoles,
  beams: beamRoles,
  readings: readingRoles,
};

/** Header → role and unit, as text. */
function understood(header: string, roles: Catalogue<string> = fatigueRoles): string {
  const match = matchHeader(header, roles);
  if (match.kind === "unknown") return "unknown";
  if (match.kind === "unit") return `${match.role.name}: unit?`;
  return match.unit ? `${match.role.name} ${match.unit.shown}` : match.role.name;
}

test.each([
  ["strain [µε]", "strain µε"],
  ["strain [μɛ]".replace("ɛ", "ε"), "strain µε"], // another letter µ
  ["Strain (microstrain)", "strain µε"],
  ["STRAIN AMPLITUDE (Microstrain)", "strain µε"],
  ["microstrain", "strain µε"],
  ["eps_um_m", "strain µε"],
  ["eps [10^-6]", "strain µε"],
  ["ε0 [µm/m]", "strain µε"],
  ["Dehnungsamplitude [‰]", "strain ‰"],
  ["strain [m/m]", "strain m/m"],
  ["strain [-]", "strain m/m"],
  ["strain", "strain: unit?"],
  ["strain level", "strain: unit?"],
  ["strain ratio", "unknown"],
  ["strain range [µε]", "unknown"], // peak to peak is not the amplitude
  ["thickness_mm", "thickness mm"],
  ["Dicke e [mm]", "thickness mm"],
  ["head displacement / µm", "headDisplacement µm"],
  ["Head-Displacement, mm", "headDisplacement mm"],
  ["Déplacement en tête (µm)", "headDisplacement µm"],
  ["Temperature °C", "temperature °C"],
  ["Temperature deg C", "temperature °C"],
  ["temperature_C", "temperature °C"],
  ["T [°C]", "temperature °C"],
  ["t [°C]", "unknown"],
  ["Prueftemperatur [ºC]", "temperature °C"],
  ["Prüftemperatur in K", "temperature K"],
  ["temperature (set) [°C]", "temperature °C"],
  ["B [mm]", "baseWidth mm"],
  ["b [mm]", "topWidth mm"],
  ["h_mm", "height mm"],
  ["Height h (cm)", "height cm"],
  ["Höhe [m]", "height m"],
  ["Hoehe [in]", "height in"],
  ["Smix [MPa]", "unknown"],
  ["Initial stiffness modulus, N/mm²", "initialModulus MPa"],
  ["S0 GPa", "initialModulus GPa"],
  ["φ [°]", "phase °"],
  ["phase angle (rad)", "phase rad"],
  ["Nf", "cycles –"],
  ["Cycles to failure (Nf)", "cycles –"],
  ["cycles N", "cycles –"],
  ["cycles [10^6]", "cycles 10⁶"],
  ["cycles [×10³]", "cycles 10³"],
  ["cycles [per hour]", "cycles: unit?"],
  ["Run-Out", "runOut"],
  ["run-out [yes/no]", "runOut"],
  ["Durchläufer", "runOut"],
  ["Test / Temperature set", "unknown"],
  ["", "unknown"],
])("header %s is %s", (header, role) => expect(understood(header)).toBe(role));

test.each([
  ["wheel speed km/h", "speed km/h"],
  ["speed_m_s", "speed m/s"],
  ["Foundation stiffness / MPa/mm", "foundationStiffness MPa/mm"],
  ["foundation_stiffness_N_mm3", "foundationStiffness MPa/mm"],
  ["Bettungsmodul [MN/m³]", "foundationStiffness MPa/m"],
  ["Radlast [kN]", "wheelLoad kN"],
  ["overlay Poisson ratio", "overlayPoisson –"],
  ["overlay_modulus_MPa", "overlayModulus MPa"],
  ["overlay", "overlayMaterial"],
  ["travel to [mm]", "travelTo mm"],
])("header of beams %s is %s", (header, role) => expect(understood(header, beamRoles)).toBe(role));

test("a header with a slip of the pen suggests, and is not taken", () => {
  const near = (header: string) => [understood(header), nearRole(header, fatigueRoles)?.name ?? null];
  expect(near("Temprature [°C]")).toEqual(["unknown", "temperature"]);
  expect(near("strian_ue")).toEqual(["unknown", "strain"]);
  expect(near("freqency")).toEqual(["unknown", "frequency"]);
  expect(near("Void content [%]")).toEqual(["unknown", null]);
  expect(near("binder grade")).toEqual(["unknown", null]);
});

describe.each(Object.entries(catalogues))("the catalogue of %s", (_, roles) => {
  test("no two columns share a word or a symbol", () => {
    const owners = new Map<string, string>();
    const shared: string[] = [];
    for (const role of roles)
      for (const key of new Set([
        ...[role.label, ...role.synonyms].flatMap(wordKeys),
        ...(role.symbols ?? []).map(symbol => `symbol ${symbol}`),
      ])) {
        if (owners.has(key)) shared.push(`${key}: ${owners.get(key)}, ${role.name}`);
        owners.set(key, role.name);
      }
    expect(shared).toEqual([]);
  });

  test("every word and every unit leads to its own column, in brackets and as a suffix", () => {
    const wrong: string[] = [];
    for (const role of roles) {
      const quantity = quantityOf(role);
      for (const word of [role.label, ...role.synonyms, ...(role.symbols ?? [])]) {
        if (quantity === null) {
          if (understood(word, roles) !== role.name) wrong.push(word);
          continue;
        }
        for (const unit of units[quantity])
          for (const header of [`${word} [${unit.shown}]`, `${word} (${unit.shown})`, `${word} ${unit.shown}`])
            if (
              !(isDimensionless(quantity) && header.endsWith("–")) &&
              understood(header, roles) !== `${role.name} ${unit.shown}`
            )
              wrong.push(`${header} → ${understood(header, roles)}`);
      }
      if (understood(headerText(role), roles) === "unknown") wrong.push(headerText(role));
    }
    expect(wrong).toEqual([]);
  });

  test("a quantity needs its unit", () => {
    for (const role of roles) {
      const quantity = quantityOf(role);
      if (quantity !== null && !isDimensionless(quantity))
        expect(understood(role.label, roles)).toBe(`${role.name}: unit?`);
    }
  });
});

describe("units", () => {
  // NIST SP 811 (2008), appendix B: 1 in = 25.4 mm, 1 lbf = 4.448222 N, 1 psi = 6894.757 Pa; 1 °F = 5/9 K from 32 °F.
  test.each([
    ["length", "in", 1, 0.0254],
    ["length", "µm", 250, 250e-6],
    ["strain", "µε", 120, 120e-6],
    ["strain", "%", 0.012, 120e-6],
    ["temperature", "°F", 50, 10],
    ["temperature", "K", 273.15, 0],
    ["modulus", "psi", 1, 6894.757],
    ["modulus", "GPa", 12.5, 12.5e9],
    ["angle", "°", 180, Math.PI],
    ["force", "lbf", 1, 4.448222],
    ["speed", "km/h", 36, 10],
    ["foundation", "MPa/mm", 0.05, 5e7],
    ["foundation", "MPa/m", 50, 5e7],
    ["count", "10⁶", 1.5, 1.5e6],
  ] as const)("%s in %s: %f is %f", (quantity, name, value, si) => {
    const unit = findUnit(quantity, name)!;
    expect(Math.abs(toSi(value, unit) - si)).toBeLessThanOrEqual(2e-7 * Math.abs(si)); // the digits that are printed
    expect(fromSi(toSi(value, unit), unit)).toBeCloseTo(value, 10);
  });

  test("decimal units give the nearest number", () => {
    const microstrain = findUnit("strain", "µε")!;
    for (let strain = 1; strain <= 2000; strain++) expect(toSi(strain, microstrain)).toBe(Number(`${strain}e-6`));
  });
});

test("numbers of cells", () => {
  const point = {mark: ".", sure: true} as const;
  const comma = {mark: ",", sure: true} as const;
  const value = (cell: string | number, choice: Parameters<typeof readNumber>[1] = point) => {
    const read = readNumber(cell, choice);
    return "value" in read ? read.value : read.problem;
  };
  expect(["1234.5", "-0.5", ".5", "5.", "1.2E6", "1e-3", "+7", " 8 ", "−9"].map(text => value(text))).toEqual([
    1234.5, -0.5, 0.5, 5, 1.2e6, 1e-3, 7, 8, -9,
  ]);
  expect(["1 234 567", "1'234'567", "1\u00A0234,5", "1\u202F234"].map(text => value(text, comma))).toEqual([
    1234567, 1234567, 1234.5, 1234,
  ]);
  for (const text of ["12 34", "1 2", "0x10", "1e9999", "1,5", "", "5%", "NaN", "Infinity", "--5", "1.2.3", "five"])
    expect(typeof value(text)).toBe("string");
  expect(value(Number.NaN)).toBe("not a finite number");
});

test("the decimal mark of a file", () => {
  const mark = (cells: string[], delimiter: "," | ";" | null) => decimalMarkOf(cells, delimiter);
  expect(mark(["1.5", "2.25"], ";")).toEqual({mark: ".", sure: true});
  expect(mark(["1,5", "2,25", "1.234"], ";")).toEqual({mark: ",", sure: true});
  expect(mark(["0,123"], ";")).toEqual({mark: ",", sure: true}); // no thousand begins with 0
  expect(mark(["1.234,5"], ";")).toEqual({mark: ",", sure: true});
  expect(mark(["1,234.5"], null)).toEqual({mark: ".", sure: true});
  expect(mark(["1.234", "17"], ";")).toEqual({mark: ".", sure: false});
  expect(mark(["1.234"], ",")).toEqual({mark: ".", sure: true});
  expect(mark(["0,5"], ",")).toEqual({mark: ",", sure: true});
});

test("dates, flags, words of cracks, delimiters", () => {
  expect(["2024-05-31", "31.05.2024", "1.2.2024", "2024-05-31 14:30"].map(readDate)).toEqual([
    "2024-05-31",
    "2024-05-31",
    "2024-02-01",
    "2024-05-31",
  ]);
  expect(["31.02.2024", "2023-02-29", "5/31/2024", "May", "", "20240531"].map(readDate)).toEqual(Array(6).fill(null));
  expect(readDate(new Date(Date.UTC(2024, 0, 2, 15)))).toBe("2024-01-02");
  expect(readDate(new Date(Number.NaN))).toBeNull();
  expect(["yes", "X", "1", "Ja", "oui", "Sí", ">", "TRUE", "✓"].map(readFlag)).toEqual(Array(9).fill(true));
  expect(["no", "0", "nein", "non", "", "-", "false"].map(readFlag)).toEqual(Array(7).fill(false));
  expect(["maybe", "2", "?"].map(readFlag)).toEqual([null, null, null]);
  expect(["Not visible", "nicht sichtbar", "DURCH", "essai arrêté", "fine"].map(readCrackWord)).toEqual([
    "not visible",
    "not visible",
    "through",
    "stopped",
    null,
  ]);
  expect(delimiterOf("# a,b,c\n\na;b,c;d\n")).toBe(";");
  expect(delimiterOf('"a;b;c",d\n')).toBe(",");
  expect(delimiterOf("a\tb\n")).toBe("\t");
});

test("no header makes it throw, however odd", () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.string({unit: "binary"}), fc.constant("[".repeat(150))), header => {
      for (const roles of Object.values(catalogues)) {
        matchHeader(header, roles);
        nearRole(header, roles);
      }
    }),
    {numRuns: 300, seed: 21},
  );
});
