/** Published data sets, as [x, y] or with a mark. */

/**
 * Strain-life of 4340 steel: plastic strain amplitude, cycles; the example of ASTM E739 (from memory). Its levels are
 * four, of two or three specimens.
 */
export const E739: readonly (readonly [number, number])[] = [
  [0.01636, 168],
  [0.01609, 200],
  [0.00675, 1000],
  [0.00682, 1180],
  [0.00179, 4730],
  [0.0016, 8035],
  [0.00165, 5254],
  [0.00053, 28617],
  [0.00054, 32650],
];
export const E739_LEVELS = [1, 1, 2, 2, 3, 3, 3, 4, 4];

/** NIST StRD "Norris", https://www.itl.nist.gov/div898/strd/lls/data/LINKS/DATA/Norris.dat, public domain: y, x. */
export const NORRIS: readonly (readonly [number, number])[] = [
  [0.1, 0.2],
  [338.8, 337.4],
  [118.1, 118.2],
  [888.0, 884.6],
  [9.2, 10.1],
  [228.1, 226.5],
  [668.5, 666.3],
  [998.5, 996.3],
  [449.1, 448.6],
  [778.9, 777.0],
  [559.2, 558.2],
  [0.3, 0.4],
  [0.1, 0.6],
  [778.1, 775.5],
  [668.8, 666.9],
  [339.3, 338.0],
  [448.9, 447.5],
  [10.8, 11.6],
  [557.7, 556.0],
  [228.3, 228.1],
  [998.0, 995.8],
  [888.8, 887.6],
  [119.6, 120.2],
  [0.3, 0.3],
  [0.6, 0.3],
  [557.6, 556.8],
  [339.3, 339.1],
  [888.0, 887.2],
  [998.5, 999.0],
  [778.9, 779.0],
  [10.2, 11.1],
  [117.6, 118.3],
  [228.9, 229.2],
  [668.4, 669.1],
  [449.2, 448.9],
  [0.2, 0.5],
];

/**
 * Insulation of motors at four temperatures: °C, hours to failure, how many were still running when the test was
 * stopped, and when. Nelson & Hahn 1972; Schmee & Hahn 1979, Technometrics 21, 417–432; read as `motors` of R's MASS.
 */
export const MOTORS: readonly {
  readonly celsius: number;
  readonly failed: readonly number[];
  readonly running: number;
  readonly stopped: number;
}[] = [
  {celsius: 150, failed: [], running: 10, stopped: 8064},
  {celsius: 170, failed: [1764, 2772, 3444, 3542, 3780, 4860, 5196], running: 3, stopped: 5448},
  {celsius: 190, failed: [408, 408, 1344, 1344, 1440], running: 5, stopped: 1680},
  {celsius: 220, failed: [408, 408, 504, 504, 504], running: 5, stopped: 528},
];

/** Points of the plot that they draw: lg hours against 1000/(T + 273.2). */
export function motorPoints(): {x: number; y: number; censored: boolean}[] {
  return MOTORS.flatMap(({celsius, failed, running, stopped}) => {
    const x = 1000 / (celsius + 273.2);
    const seen = failed.map(hours => ({x, y: Math.log10(hours), censored: false}));
    const open = Array.from({length: running}, () => ({x, y: Math.log10(stopped), censored: true}));
    return [...seen, ...open];
  });
}
