/** Small tables of a laboratory that does not exist. */
import {parse} from "csv-parse/sync";
import {type Cell, delimiterOf, type RawFile} from "../../../../src/schema/laboratory/index.ts";

/** A CSV text as rows of cells, as it would come from disk. */
export function csvFile(text: string, file = "table.csv"): RawFile {
  const delimiter = delimiterOf(text);
  const parsed = parse(text, {
    delimiter,
    info: true,
    comment: "#",
    comment_no_infix: true,
    relax_column_count: true,
    skip_empty_lines: true,
  }) as unknown as {record: string[]; info: {lines: number}}[];
  const rows = parsed.map(({record, info}) => ({row: info.lines, cells: record}));
  return {file, hash: "0".repeat(64), sheets: [{name: null, delimiter, rows, comments: 0}]};
}

/** A workbook as rows of cells. */
export function workbookFile(sheets: Readonly<Record<string, readonly (readonly Cell[])[]>>): RawFile {
  return {
    file: "book.xlsx",
    hash: "1".repeat(64),
    sheets: Object.entries(sheets).map(([name, rows]) => ({
      name,
      delimiter: null,
      comments: 0,
      rows: rows.map((cells, i) => ({row: i + 1, cells})),
    })),
  };
}

export const fatigueHeader =
  "specimen,material,temperature [°C],frequency [Hz],strain amplitude [µε],cycles to failure,run-out";

export const fatigueText = `${fatigueHeader}
K1,coarse,20,25,150,210000,
K2,coarse,20,25,120,1150000,
K3,coarse,20,25,90,>3000000,
`;

export const beamHeader =
  "beam,overlay material,overlay thickness [mm],overlay modulus [MPa],overlay Poisson ratio,interlayer material,interlayer thickness [mm],interlayer modulus [MPa],interlayer Poisson ratio,base thickness [mm],base modulus [MPa],base Poisson ratio,gap width [mm],beam length [mm],beam width [mm],foundation stiffness [MPa/mm],wheel load [kN],contact length [mm],contact width [mm],travel from [mm],travel to [mm],speed [m/s],temperature [°C],detection limit [mm]";

export const beamRow = "W1,coarse,60,4000,0.35,,,,,70,30000,0.2,5,500,150,0.05,3,80,60,-150,150,0.3,15,2";
export const layeredRow =
  "W2,coarse,50,4000,0.35,soft,20,400,0.4,70,30000,0.2,5,500,150,0.05,3,80,60,-150,150,0.3,15,2";

export const readingsText = `beam,passes,crack from below face 1 [mm],crack from below face 2 [mm],crack from above face 1 [mm],status
W1,0,not visible,not visible,,
W1,1000,12,10,,
W1,5000,35,30,4,
W1,9000,through,through,,test stopped
W2,1000,,,,not visible
W2,20000,8.5,,,
`;
