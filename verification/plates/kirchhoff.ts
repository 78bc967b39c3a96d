/**
 * Exact solutions of thin (Kirchhoff) plates on a dense liquid, for a square patch: an infinite plate, and two
 * semi-infinite plates whose common edge passes shear only. Derived here, independent of the engine.
 *
 *   D·∇⁴w + k·w = p,  l⁴ = D/k
 */
export interface Plate {
  readonly rigidity: number; // D = Eh³/(12(1−ν²)) [N·m]
  readonly poisson: number;
  readonly support: number; // k [Pa/m]
}

export const radius = ({rigidity, support}: Plate): number => (rigidity / support) ** 0.25;

const GAUSS = [
  [-0.9324695142031521, 0.1713244923791704],
  [-0.6612093864662645, 0.3607615730481386],
  [-0.2386191860831969, 0.467913934572691],
  [0.2386191860831969, 0.467913934572691],
  [0.6612093864662645, 0.3607615730481386],
  [0.9324695142031521, 0.1713244923791704],
];

/** ∫ f over [from, to], six Gauss points a panel. */
export function integral(f: (x: number) => number, from: number, to: number, panels: number): number {
  const h = (to - from) / panels;
  let sum = 0;
  for (let p = 0; p < panels; p++) for (const [g, w] of GAUSS) sum += (w * h * f(from + (p + 0.5 + g / 2) * h)) / 2;
  return sum;
}

/**
 * Deflection and bending moment at the centre of a unit load on a square of half side a, on an infinite plate: the double
 * Fourier integral in polar coordinates. By symmetry M_x = M_y = ½(1+ν)·m, ∇²m = k·w − p.
 *
 *   ŵ = p̂·(1 + λs²)/(D·s⁴ + k(1 + λs²)),   m̂ = p̂·D·s²/(D·s⁴ + k(1 + λs²))
 *
 * @param shear λ = D/(κGh) = h²/(5(1−ν)) with κ = 5/6 for a plate with shear (Reissner 1945, Mindlin 1951); 0: Kirchhoff
 */
export function interior(plate: Plate, a: number, shear = 0): {deflection: number; moment: number} {
  const {rigidity, poisson, support} = plate;
  const sinc = (t: number): number => (t === 0 ? 1 : Math.sin(t) / t);
  // The load's transform, averaged over the direction of the wave.
  const load = (s: number): number =>
    integral(t => sinc(s * a * Math.cos(t)) * sinc(s * a * Math.sin(t)), 0, Math.PI / 4, 4 + Math.ceil((s * a) / 4)) *
    (4 / Math.PI);
  const l = radius(plate);
  const end = 20 / a;
  // Up to there s = sinh(t)/l, fine at 1/l whatever the patch; beyond, the integrand oscillates and falls as 1/s².
  const all = (f: (s: number) => number): number =>
    integral(t => (f(Math.sinh(t) / l) * Math.cosh(t)) / l, 0, Math.asinh(end * l), 200) +
    integral(f, end, 20 * end, 400);
  const response = (s: number): number =>
    (s * load(s)) / (rigidity * s ** 4 + support * (1 + shear * s * s)) / (2 * Math.PI);
  return {
    deflection: all(s => (1 + shear * s * s) * response(s)),
    moment: (rigidity * (1 + poisson) * all(s => s * s * response(s))) / 2,
  };
}

type Complex = readonly [number, number];
const times = (p: Complex, q: Complex): Complex => [p[0] * q[0] - p[1] * q[1], p[0] * q[1] + p[1] * q[0]];
const over = (p: Complex, q: Complex): Complex => {
  const s = q[0] ** 2 + q[1] ** 2;
  return [(p[0] * q[0] + p[1] * q[1]) / s, (p[1] * q[0] - p[0] * q[1]) / s];
};
const root = ([a, b]: Complex): Complex => {
  const r = Math.hypot(a, b);
  return [Math.sqrt((r + a) / 2), Math.sign(b) * Math.sqrt((r - a) / 2)];
};
const power = (p: Complex, n: number): Complex => (n === 0 ? [1, 0] : times(p, power(p, n - 1)));

/**
 * One harmonic cos βy of the edge x = 0 of a semi-infinite plate x > 0: deflection under unit pressure on 0 < x < 2a,
 * and under a unit upward-resisted line shear (compliance). Free solutions are Im[C·e^(−μx)] with μ² = β² − i/l²; the
 * load on the infinite plate gives (l²/D)·Im[(1 − e^(−2aμ))/(2μ²)]·… at the edge, each derivative bringing a factor μ.
 */
function edgeHarmonic(plate: Plate, a: number, beta: number): {load: number; compliance: number} {
  const {rigidity, poisson} = plate;
  const l2 = radius(plate) ** 2;
  const mu = root([beta * beta, -1 / l2]);
  const decay = Math.exp(-2 * a * mu[0]);
  const e: Complex = [decay * Math.cos(2 * a * mu[1]), -decay * Math.sin(2 * a * mu[1])];
  const half = over([1 - e[0], -e[1]], times([2, 0], power(mu, 2)));
  const particular = (n: number): number => (l2 / rigidity) * times(power(mu, n), half)[1];
  const minus: Complex = [-mu[0], -mu[1]];
  const b2 = beta * beta;
  // Im[C·z] = Re C·Im z + Im C·Re z; edge moment w″ − νβ²w and edge shear w‴ − (2−ν)β²w′
  const row = (combine: (f: (n: number) => number) => number): [number, number] => [
    combine(n => power(minus, n)[1]),
    combine(n => power(minus, n)[0]),
  ];
  const moment = (f: (n: number) => number): number => f(2) - poisson * b2 * f(0);
  const shear = (f: (n: number) => number): number => f(3) - (2 - poisson) * b2 * f(1);
  const [m, v] = [row(moment), row(shear)];
  const solve = (rm: number, rv: number): number => {
    const det = m[0] * v[1] - m[1] * v[0];
    return (m[0] * rv - v[0] * rm) / det; // Im C, the deflection at the edge
  };
  return {
    load: particular(0) + solve(-moment(particular), -shear(particular)),
    compliance: Math.abs(solve(0, 1 / rigidity)),
  };
}

/** Unit load on a square of half side a whose side lies on the joint; at the middle of that side. */
export interface EdgeResult {
  readonly loaded: number; // [m/N]
  readonly unloaded: number; // [m/N]
  readonly curvature: number; // −w,yy of the free edge; the edge strain at the bottom is h/2 times that [1/(m·N)]
}

/** @param transfer shear stiffness of the joint per length [Pa] */
export function edge(plate: Plate, a: number, transfer: number): EdgeResult {
  const load = (beta: number): number => (beta === 0 ? 1 : Math.sin(beta * a) / (beta * a)) / (2 * a) / Math.PI;
  const l = radius(plate);
  const inverse = (f: (beta: number) => number): number =>
    integral(b => load(b) * f(b), 0, 20 / l, 60) + integral(b => load(b) * f(b), 20 / l, 20 / l + 300 / a, 400);
  const unit = (beta: number) => edgeHarmonic(plate, a, beta);
  const passed = (beta: number): number => {
    const {load: free, compliance} = unit(beta);
    return (transfer * free * compliance) / (1 + 2 * transfer * compliance); // shear passed on × compliance
  };
  return {
    loaded: inverse(b => unit(b).load - passed(b)),
    unloaded: inverse(passed),
    curvature: inverse(b => b * b * unit(b).load),
  };
}

/** Where the patch stands beside the joint and where deflections are wanted, on its side and on the other [m]. */
export interface Beside {
  readonly from: number;
  readonly to: number;
  readonly loaded: number; // outside the patch or in it
  readonly unloaded: number;
}

/**
 * Deflections at a distance from the joint under unit load on a square that stands beside it: per harmonic, the free edge's
 * deflection F(x), and that under a unit line shear at the edge, c(x); the joint passes V = q·F(0)/(1 + 2q·c(0)).
 */
export function beside(plate: Plate, places: Beside, transfer: number): {loaded: number; unloaded: number} {
  const a = (places.to - places.from) / 2;
  const load = (beta: number): number => (beta === 0 ? 1 : Math.sin(beta * a) / (beta * a)) / (2 * a) / Math.PI;
  const l = radius(plate);
  const parts = (beta: number): {loaded: number; unloaded: number} => {
    const {free, sheared} = besideHarmonic(plate, places, beta);
    const passed = (transfer * free(0)) / (1 + 2 * transfer * sheared(0));
    return {
      loaded: free(places.loaded) - passed * sheared(places.loaded),
      unloaded: passed * sheared(places.unloaded),
    };
  };
  const inverse = (key: "loaded" | "unloaded"): number =>
    integral(b => load(b) * parts(b)[key], 0, 20 / l, 60) +
    integral(b => load(b) * parts(b)[key], 20 / l, 20 / l + 300 / a, 400);
  return {loaded: inverse("loaded"), unloaded: inverse("unloaded")};
}

type Along = (x: number) => number;

function besideHarmonic(plate: Plate, {from, to}: Beside, beta: number): {free: Along; sheared: Along} {
  const {rigidity, poisson} = plate;
  const l2 = radius(plate) ** 2;
  const mu = root([beta * beta, -1 / l2]);
  const decaying = (x: number): Complex => [
    Math.exp(-mu[0] * x) * Math.cos(mu[1] * x),
    -Math.exp(-mu[0] * x) * Math.sin(mu[1] * x),
  ];
  // Infinite plate: each side of the patch adds ∓½e^(−μ|x − side|)/μ², and 1/μ² within.
  const infinite = (x: number): number => {
    const [near, far] = [decaying(Math.abs(x - from)), decaying(Math.abs(to - x))];
    const sum: Complex = x < from ? [near[0] - far[0], near[1] - far[1]] : [2 - near[0] - far[0], -near[1] - far[1]];
    return (l2 / rigidity) * over(sum, times([2, 0], power(mu, 2)))[1];
  };
  const [near, far] = [decaying(from), decaying(to)];
  const half = over([near[0] - far[0], near[1] - far[1]], times([2, 0], power(mu, 2)));
  const particular = (n: number): number => (l2 / rigidity) * times(power(mu, n), half)[1];
  const minus: Complex = [-mu[0], -mu[1]];
  const b2 = beta * beta;
  const moment = (f: (n: number) => number): number => f(2) - poisson * b2 * f(0);
  const shear = (f: (n: number) => number): number => f(3) - (2 - poisson) * b2 * f(1);
  const [m, v] = [moment, shear].map(part => [part(n => power(minus, n)[1]), part(n => power(minus, n)[0])]);
  const edgeSolution = (rm: number, rv: number): Along => {
    const det = m[0] * v[1] - m[1] * v[0];
    const C: Complex = [(rm * v[1] - m[1] * rv) / det, (m[0] * rv - v[0] * rm) / det];
    return x => times(C, decaying(x))[1];
  };
  const correction = edgeSolution(-moment(particular), -shear(particular));
  const unit = edgeSolution(0, 1 / rigidity);
  const sign = Math.sign(unit(0));
  return {free: x => infinite(x) + correction(x), sheared: x => sign * unit(x)};
}
