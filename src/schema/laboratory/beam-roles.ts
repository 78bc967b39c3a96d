/** Columns of the two tables of wheel-tracked beams. A data table: longer than a screen. */
import {
  type Catalogue,
  type Content,
  counted,
  crack,
  flag,
  type OriginRole,
  originRoles,
  quantity,
  type Role,
  text,
} from "./roles.ts";

export type BeamRole =
  | "beam"
  | "overlayMaterial"
  | "overlayThickness"
  | "overlayModulus"
  | "overlayPoisson"
  | "interlayerMaterial"
  | "interlayerThickness"
  | "interlayerModulus"
  | "interlayerPoisson"
  | "baseThickness"
  | "baseModulus"
  | "basePoisson"
  | "gap"
  | "length"
  | "width"
  | "foundationStiffness"
  | "sheets"
  | "sheetThickness"
  | "sheetModulus"
  | "staticDeflection"
  | "staticLoad"
  | "deflectionAt"
  | "wheelLoad"
  | "contactLength"
  | "contactWidth"
  | "travelFrom"
  | "travelTo"
  | "travelCentre"
  | "stroke"
  | "speed"
  | "temperature"
  | "detection"
  | "readingError"
  | OriginRole;

const size = quantity("length", 0.02, 20);
const along = quantity("length", -10, 10);
const poisson = quantity("ratio", 0, 0.499);
const modulus = quantity("modulus", 1e6, 1e12);

function role<Name extends BeamRole>(
  name: Name,
  label: string,
  options: {readonly content: Content; readonly needed: Role["needed"]; readonly meaning: string},
  ...synonyms: string[]
): Role<Name> {
  return {name, label, ...options, synonyms};
}

const beamName = [
  "beam name",
  "name",
  "id",
  "specimen",
  "beam no",
  "sample",
  "Balken",
  "Probe",
  "Prüfkörper",
  "poutre",
  "éprouvette",
  "viga",
  "probeta",
];

export const beamRoles: Catalogue<BeamRole> = [
  role("beam", "beam", {content: text, needed: "always", meaning: "name of the beam, each once"}, ...beamName),
  role(
    "overlayMaterial",
    "overlay material",
    {content: text, needed: "always", meaning: "name of the mixture"},
    "overlay",
    "overlay mix",
    "Deckschicht",
    "Material Deckschicht",
    "matériau couche supérieure",
    "material refuerzo",
  ),
  role(
    "overlayThickness",
    "overlay thickness",
    {content: quantity("length", 5e-3, 1), needed: "always", meaning: "without the interlayer"},
    "thickness of overlay",
    "Dicke Deckschicht",
    "Deckschichtdicke",
    "épaisseur couche supérieure",
    "épaisseur rechargement",
    "espesor refuerzo",
  ),
  role(
    "overlayModulus",
    "overlay modulus",
    {content: modulus, needed: "always", meaning: "at the temperature and speed of the test"},
    "modulus of overlay",
    "overlay stiffness",
    "Modul Deckschicht",
    "Steifigkeit Deckschicht",
    "module couche supérieure",
    "módulo refuerzo",
  ),
  role(
    "overlayPoisson",
    "overlay Poisson ratio",
    {content: poisson, needed: "no", meaning: "0.35 is taken, with a warning, when it is not given"},
    "overlay poisson",
    "overlay nu",
    "Querdehnzahl Deckschicht",
  ),
  role(
    "interlayerMaterial",
    "interlayer material",
    {content: text, needed: "see text", meaning: "empty when there is no interlayer"},
    "interlayer",
    "sami",
    "Zwischenschicht",
    "Material Zwischenschicht",
    "intercouche",
    "capa intermedia",
  ),
  role(
    "interlayerThickness",
    "interlayer thickness",
    {content: quantity("length", 1e-3, 0.2), needed: "see text", meaning: "empty when there is no interlayer"},
    "thickness of interlayer",
    "Dicke Zwischenschicht",
    "épaisseur intercouche",
    "espesor capa intermedia",
  ),
  role(
    "interlayerModulus",
    "interlayer modulus",
    {content: quantity("modulus", 1e5, 1e12), needed: "see text", meaning: "at the temperature and speed of the test"},
    "modulus of interlayer",
    "interlayer stiffness",
    "Modul Zwischenschicht",
    "module intercouche",
    "módulo capa intermedia",
  ),
  role(
    "interlayerPoisson",
    "interlayer Poisson ratio",
    {content: poisson, needed: "no", meaning: "0.35 is taken, with a warning, when it is not given"},
    "interlayer poisson",
    "interlayer nu",
    "Querdehnzahl Zwischenschicht",
  ),
  role(
    "baseThickness",
    "base thickness",
    {content: size, needed: "always", meaning: "of the two blocks"},
    "block thickness",
    "slab thickness",
    "thickness of base",
    "Dicke Unterlage",
    "épaisseur support",
    "espesor base",
  ),
  role(
    "baseModulus",
    "base modulus",
    {content: quantity("modulus", 1e7, 1e12), needed: "always", meaning: "of the two blocks"},
    "block modulus",
    "modulus of base",
    "Modul Unterlage",
    "module support",
    "módulo base",
  ),
  role(
    "basePoisson",
    "base Poisson ratio",
    {content: poisson, needed: "no", meaning: "0.2 is taken, with a warning, when it is not given"},
    "base poisson",
    "base nu",
    "Querdehnzahl Unterlage",
  ),
  role(
    "gap",
    "gap width",
    {content: quantity("length", 0, 0.2), needed: "always", meaning: "between the two blocks"},
    "gap",
    "joint width",
    "joint opening",
    "Fugenbreite",
    "Spaltbreite",
    "largeur du joint",
    "ouverture du joint",
    "ancho de junta",
  ),
  role(
    "length",
    "beam length",
    {content: size, needed: "always", meaning: "of the whole beam"},
    "length",
    "Länge",
    "Balkenlänge",
    "longueur",
    "longitud",
  ),
  role(
    "width",
    "beam width",
    {content: size, needed: "always", meaning: "of the whole beam"},
    "width",
    "Breite",
    "Balkenbreite",
    "largeur",
    "ancho",
  ),
  role(
    "foundationStiffness",
    "foundation stiffness",
    {
      content: quantity("foundation", 1e6, 1e13),
      needed: "see text",
      meaning: "pressure under the blocks per deflection",
    },
    "support stiffness",
    "subgrade reaction",
    "modulus of subgrade reaction",
    "bedding modulus",
    "Bettungsmodul",
    "Bettungsziffer",
    "module de réaction",
    "módulo de reacción",
    "módulo de balasto",
  ),
  role(
    "sheets",
    "sheets",
    {content: counted(1, 1000), needed: "see text", meaning: "number of elastic sheets under the blocks"},
    "number of sheets",
    "sheet count",
    "Anzahl Matten",
    "nombre de plaques",
    "número de láminas",
  ),
  role(
    "sheetThickness",
    "sheet thickness",
    {content: quantity("length", 1e-4, 0.5), needed: "see text", meaning: "of one sheet"},
    "thickness of sheet",
    "Mattendicke",
    "épaisseur plaque",
    "espesor lámina",
  ),
  role(
    "sheetModulus",
    "sheet modulus",
    {content: quantity("modulus", 1e4, 1e11), needed: "see text", meaning: "of the sheets in compression"},
    "modulus of sheet",
    "Mattenmodul",
    "module plaque",
    "módulo lámina",
  ),
  role(
    "staticDeflection",
    "static deflection",
    {content: quantity("length", 1e-6, 0.05), needed: "see text", meaning: "measured under the static load"},
    "measured deflection",
    "deflection",
    "Einsenkung",
    "Durchbiegung",
    "déflexion",
    "deflexión",
  ),
  role(
    "staticLoad",
    "static load",
    {
      content: quantity("force", 1, 1e6),
      needed: "see text",
      meaning: "at rest, under which the deflection was measured",
    },
    "load of deflection",
    "statische Last",
    "charge statique",
    "carga estática",
  ),
  role(
    "deflectionAt",
    "deflection position",
    {content: along, needed: "no", meaning: "of static load and gauge, from the middle of the gap; empty: at the gap"},
    "deflection at",
    "position of deflection",
    "Messstelle",
    "position de la mesure",
    "posición de medida",
  ),
  role(
    "wheelLoad",
    "wheel load",
    {content: quantity("force", 1, 1e6), needed: "always", meaning: "of one wheel"},
    "load",
    "Radlast",
    "charge de roue",
    "charge",
    "carga de rueda",
  ),
  role(
    "contactLength",
    "contact length",
    {content: quantity("length", 2e-3, 1), needed: "always", meaning: "along the beam"},
    "footprint length",
    "Aufstandslänge",
    "longueur de contact",
    "longitud de contacto",
  ),
  role(
    "contactWidth",
    "contact width",
    {content: quantity("length", 2e-3, 1), needed: "always", meaning: "across the beam"},
    "footprint width",
    "wheel width",
    "Aufstandsbreite",
    "largeur de contact",
    "ancho de contacto",
  ),
  role(
    "travelFrom",
    "travel from",
    {content: along, needed: "see text", meaning: "of the wheel's centre, from the middle of the gap"},
    "from",
    "start of travel",
    "Weg von",
    "course de",
    "recorrido desde",
  ),
  role(
    "travelTo",
    "travel to",
    {content: along, needed: "see text", meaning: "of the wheel's centre, from the middle of the gap"},
    "to",
    "end of travel",
    "Weg bis",
    "course à",
    "recorrido hasta",
  ),
  role(
    "travelCentre",
    "travel centre",
    {content: along, needed: "see text", meaning: "middle of the travel, from the middle of the gap"},
    "travel center",
    "centre offset",
    "center offset",
    "offset",
    "Wegmitte",
    "centre de course",
    "centro de recorrido",
  ),
  role(
    "stroke",
    "stroke",
    {content: quantity("length", 0.01, 20), needed: "see text", meaning: "whole length of the travel, end to end"},
    "travel length",
    "travel",
    "Hub",
    "Weglänge",
    "course",
    "carrera",
    "recorrido",
  ),
  role(
    "speed",
    "speed",
    {content: quantity("speed", 1e-3, 50), needed: "always", meaning: "of the wheel, at the gap"},
    "wheel speed",
    "Geschwindigkeit",
    "Radgeschwindigkeit",
    "vitesse",
    "velocidad",
  ),
  role(
    "temperature",
    "temperature",
    {content: quantity("temperature", -50, 80), needed: "always", meaning: "of the test"},
    "test temperature",
    "temp",
    "Temperatur",
    "Prüftemperatur",
    "température",
    "temperatura",
  ),
  role(
    "detection",
    "detection limit",
    {content: quantity("length", 1e-5, 0.05), needed: "always", meaning: "shortest crack that is seen"},
    "crack detection limit",
    "shortest visible crack",
    "resolution",
    "Nachweisgrenze",
    "limite de détection",
    "límite de detección",
  ),
  role(
    "readingError",
    "reading error",
    {
      content: quantity("length", 0, 0.05),
      needed: "no",
      meaning: "by which a crack may seem to shrink; 2 mm when it is not given",
    },
    "error of reading",
    "Ablesefehler",
    "Ablesegenauigkeit",
    "erreur de lecture",
    "error de lectura",
  ),
  ...originRoles,
];

export type CrackRole = "lower1" | "lower2" | "upper1" | "upper2";
export type ReadingRole = "beam" | "passes" | CrackRole | "status" | "stopped" | "remarks";

export const crackRoles: readonly CrackRole[] = ["lower1", "lower2", "upper1", "upper2"];

const remarks = originRoles.find(({name}) => name === "remarks") as Role<"remarks">;

export const readingRoles: Catalogue<ReadingRole> = [
  {
    name: "beam",
    label: "beam",
    content: text,
    needed: "always",
    meaning: "name of the beam as in the table of beams",
    synonyms: beamName,
  },
  {
    name: "passes",
    label: "passes",
    content: counted(0),
    needed: "always",
    meaning: "of the wheel, one way each, ascending for each beam",
    synonyms: [
      "wheel passes",
      "number of passes",
      "pass",
      "cycles",
      "Überrollungen",
      "Überfahrten",
      "Radübergänge",
      "passages",
      "nombre de passages",
      "pasadas",
      "número de pasadas",
    ],
    symbols: ["N"],
  },
  {
    name: "lower1",
    label: "crack from below face 1",
    content: crack,
    needed: "see text",
    meaning: "length from the bottom of the courses up, or a word",
    synonyms: [
      "crack from below",
      "crack below",
      "lower crack",
      "lower crack face 1",
      "crack below face 1",
      "crack",
      "crack length",
      "crack face 1",
      "front crack from below",
      "Riss unten",
      "Riss von unten",
      "Riss unten Seite 1",
      "Riss von unten Seite 1",
      "fissure par le bas",
      "fissure du bas",
      "fissure par le bas face 1",
      "fisura inferior",
      "fisura inferior cara 1",
    ],
  },
  {
    name: "lower2",
    label: "crack from below face 2",
    content: crack,
    needed: "no",
    meaning: "the same on the other face",
    synonyms: [
      "lower crack face 2",
      "crack below face 2",
      "crack face 2",
      "back crack from below",
      "Riss unten Seite 2",
      "Riss von unten Seite 2",
      "fissure par le bas face 2",
      "fisura inferior cara 2",
    ],
  },
  {
    name: "upper1",
    label: "crack from above face 1",
    content: crack,
    needed: "see text",
    meaning: "length from the surface down, or a word",
    synonyms: [
      "crack from above",
      "crack above",
      "upper crack",
      "upper crack face 1",
      "crack above face 1",
      "front crack from above",
      "Riss oben",
      "Riss von oben",
      "Riss oben Seite 1",
      "Riss von oben Seite 1",
      "fissure par le haut",
      "fissure du haut",
      "fissure par le haut face 1",
      "fisura superior",
      "fisura superior cara 1",
    ],
  },
  {
    name: "upper2",
    label: "crack from above face 2",
    content: crack,
    needed: "no",
    meaning: "the same on the other face",
    synonyms: [
      "upper crack face 2",
      "crack above face 2",
      "back crack from above",
      "Riss oben Seite 2",
      "Riss von oben Seite 2",
      "fissure par le haut face 2",
      "fisura superior cara 2",
    ],
  },
  {
    name: "status",
    label: "status",
    content: text,
    needed: "no",
    meaning: "a word about the whole row",
    synonyms: ["state", "condition", "Zustand", "état", "estado"],
  },
  {
    name: "stopped",
    label: "test stopped",
    content: flag,
    needed: "no",
    meaning: "whether the test ended here",
    synonyms: ["stopped", "stop", "end of test", "Versuchsende", "fin d'essai", "fin de ensayo"],
  },
  remarks,
];
