/**
 * Bessel functions J₀ and J₁ of real argument to about 1e-15 absolute: local Taylor series from a table, Hankel's
 * asymptotic expansion for the few arguments beyond it. The table is filled as far as arguments have reached.
 *
 * @source Abramowitz & Stegun 1964, §9.1.1 (equation), §9.12 example 1 (downward recurrence), §9.2.5–9.2.10 (asymptotics)
 */
const LAST = 4096; // of the table: 1.6 MB
const STEP = 0.25; // |t| ≤ 0.125: the first term left out, t¹²/12!, is below 1e-19
const TERMS = 12;
const CELLS = LAST / STEP + 1;
const TABLE = new Float64Array(CELLS * TERMS);
let filled = 0; // cells of the table
const SWITCH = 25; // from there on the expansion holds: its smallest term is about exp(−2x) = 2e-22
const ASYMPTOTIC_TERMS = 20; // at x = 25 the first left out is 4e-18
const FEWER_FROM = 80;
const FEWER_TERMS = 10; // from x = 80 on the first left out is 1e-17 or less
const HANKEL0 = hankelCoefficients(0);
const HANKEL1 = hankelCoefficients(1);

/**
 * J₀(x) and J₁(x) for many arguments.
 *
 * @param x     arguments ≥ 0; those from `from` up to, not including, `to` are used
 * @param j0    length ≥ to; overwritten from `from` to `to`
 * @param j1    likewise
 */
export function besselJ01(x: Float64Array, from: number, to: number, j0: Float64Array, j1: Float64Array): void {
  for (let i = from; i < to; i++) {
    const xi = x[i];
    if (xi > LAST) {
      asymptotic(xi, i, j0, j1);
      continue;
    }
    const cell = Math.round(xi / STEP);
    if (cell >= filled) fillTable(Math.min(2 * cell + 1, CELLS));
    const t = xi - cell * STEP;
    const at = cell * TERMS;
    let value = TABLE[at + TERMS - 1];
    let slope = 0;
    for (let n = TERMS - 2; n >= 0; n--) {
      slope = slope * t + value;
      value = value * t + TABLE[at + n];
    }
    j0[i] = value;
    j1[i] = -slope;
  }
}

/** Jₙ = √(2/πx)·(P cos χ − Q sin χ), χ = x − (n/2 + 1/4)π; A&S 9.2.5, 9.2.9, 9.2.10. */
function asymptotic(x: number, i: number, j0: Float64Array, j1: Float64Array): void {
  const s = 1 / (x * x);
  let p0 = 0;
  let q0 = 0;
  let p1 = 0;
  let q1 = 0;
  for (let k = x < FEWER_FROM ? ASYMPTOTIC_TERMS - 2 : FEWER_TERMS - 2; k >= 0; k -= 2) {
    p0 = p0 * s + HANKEL0[k];
    q0 = q0 * s + HANKEL0[k + 1];
    p1 = p1 * s + HANKEL1[k];
    q1 = q1 * s + HANKEL1[k + 1];
  }
  q0 /= x;
  q1 /= x;
  const amplitude = Math.sqrt(1 / (Math.PI * x)); // √(2/πx)·√½: the sums of cos x and sin x below carry the √½
  const cosine = Math.cos(x);
  const sine = Math.sin(x);
  j0[i] = amplitude * (p0 * (cosine + sine) - q0 * (sine - cosine));
  j1[i] = amplitude * (p1 * (sine - cosine) + q1 * (sine + cosine));
}

/** Coefficients of x⁻ᵏ in P (even k) and Q (odd k) with their signs: ± Π (4n² − (2j−1)²)/(8j), j = 1 … k. */
function hankelCoefficients(order: number): Float64Array {
  const coefficients = new Float64Array(ASYMPTOTIC_TERMS);
  for (let k = 0, c = 1; k < ASYMPTOTIC_TERMS; k++) {
    coefficients[k] = k % 4 < 2 ? c : -c;
    c *= (4 * order * order - (2 * k + 1) ** 2) / (8 * (k + 1));
  }
  return coefficients;
}

/** Fills the table up to a number of cells: Taylor coefficients of J₀ about k·STEP, from x·y″ + y′ + x·y = 0. */
function fillTable(cells: number): void {
  for (let j = 0, c = 1; 2 * j < TERMS; j++) {
    TABLE[2 * j] = c;
    c *= -0.25 / (j + 1) ** 2;
  }
  const j0 = new Float64Array(1);
  const j1 = new Float64Array(1);
  for (let cell = Math.max(1, filled); cell < cells; cell++) {
    const x = cell * STEP;
    const at = cell * TERMS;
    if (x < SWITCH) [j0[0], j1[0]] = downwardRecurrence(x);
    else asymptotic(x, 0, j0, j1);
    TABLE[at] = j0[0];
    TABLE[at + 1] = -j1[0];
    for (let n = 0; n + 2 < TERMS; n++) {
      const before = n > 0 ? TABLE[at + n - 1] : 0;
      const known = (n + 1) ** 2 * TABLE[at + n + 1] + x * TABLE[at + n] + before;
      TABLE[at + n + 2] = -known / (x * (n + 2) * (n + 1));
    }
  }
  filled = cells;
}

/** Miller's algorithm: Jₖ₋₁ = (2k/x)Jₖ − Jₖ₊₁ downward from a large order, scaled so that J₀ + 2J₂ + 2J₄ + … = 1. */
function downwardRecurrence(x: number): [number, number] {
  let above = 0;
  let current = 1e-300;
  let sum = 0;
  const start = 2 * Math.ceil(x / 2 + 30);
  for (let k = start; k > 0; k--) {
    if (k % 2 === 0) sum += 2 * current;
    const below = (2 * k * current) / x - above;
    above = current;
    current = below;
    if (Math.abs(current) > 1e200) {
      current *= 1e-250;
      above *= 1e-250;
      sum *= 1e-250;
    }
  }
  sum += current;
  return [current / sum, above / sum];
}
