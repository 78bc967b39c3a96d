import {beamRoles, readingRoles} from "./beam-roles.ts";
import {fatigueRoles} from "./fatigue-roles.ts";
import {type Catalogue, quantityOf, type Role} from "./roles.ts";
import {headerText} from "./tabular.ts";
import {isDimensionless, unitNames} from "./units.ts";
import {crackWords, flagWords} from "./words.ts";

const writing = [
  "Lines that begin with # are not read. Fill in the rows below the header; columns that are not needed may go,",
  "columns of your own may come and are kept. Numbers have a decimal point here; in a file whose columns are parted by",
  "semicolons they may have a decimal comma instead.",
];

/** A CSV text with a header and no rows, for a person to fill in. */
export function fatigueTemplate(): string {
  return template(fatigueRoles, [
    "Fatigue specimens: one row for each. All amplitudes are half of peak to peak.",
    "Give one of strain amplitude, head displacement (trapezoid) and mid-span deflection (prism).",
    "The shape is needed with a displacement: base width, top width, height and thickness of a trapezoid,",
    "or outer span, inner span, height and width of a prism.",
    "Give the cycles to failure, or the name of a history file beside this table.",
    ...writing,
  ]);
}

/** The table of beams, likewise. */
export function beamsTemplate(): string {
  return template(beamRoles, [
    "Wheel-tracked beams: one row for each. Places along the beam are measured from the middle of the gap.",
    "Leave the columns of the interlayer empty when there is none.",
    "Say what the blocks stand on in one of three ways: foundation stiffness; sheets, sheet thickness and sheet modulus;",
    "or static deflection and static load. Say the travel by travel from and travel to, or by travel centre and stroke.",
    ...writing,
  ]);
}

/** The table of readings, likewise. */
export function readingsTemplate(): string {
  const words = Object.values(crackWords).map(([word]) => word);
  return template(readingRoles, [
    "Readings of cracks: one row for each beam and number of passes, passes ascending.",
    `A cell of a crack holds a length or one of the words ${words.join(", ")}; empty: not read.`,
    "A word in the column status holds for every crack of the row that is empty.",
    ...writing,
  ]);
}

function template(roles: Catalogue<string>, introduction: readonly string[]): string {
  const width = Math.max(...roles.map(role => headerText(role).length));
  const lines = [
    ...introduction,
    "",
    ...roles.map(role => `${headerText(role).padEnd(width)}  ${acceptedText(role)}`.trimEnd()),
  ];
  return `${lines.map(line => `# ${line}`.trimEnd()).join("\n")}\n${roles.map(headerText).join(",")}\n`;
}

/** What a cell holds, in words. */
export function acceptedText(role: Role): string {
  const need = role.needed === "always" ? " (needed)" : "";
  const quantity = quantityOf(role);
  if (role.content.kind === "flag")
    return `${role.meaning}${need}; ${flagWords.yes[0]}, ${flagWords.yes[2]} or ${flagWords.no[0]}`;
  if (quantity === null || isDimensionless(quantity)) return `${role.meaning}${need}`;
  return `${role.meaning}${need}; in ${unitNames(quantity)}`;
}
