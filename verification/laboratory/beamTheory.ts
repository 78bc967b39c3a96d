/** Bending of specimens by quadrature of the curvature M/(E·I), for 1 N and E = 1 Pa: apart from the closed forms. */
import type {SpecimenShape} from "../../src/engine/laboratory/index.ts";

/** Gauss–Legendre, five points (Abramowitz & Stegun 1964, table 25.4, from memory), on each of `pieces` parts. */
function integral(from: number, to: number, f: (x: number) => number, pieces = 40): number {
  const nodes = [0, 0.5384693101056831, 0.906179845938664];
  const weights = [0.5688888888888889, 0.47862867049936647, 0.23692688505618908];
  const half = (to - from) / (2 * pieces);
  let sum = 0;
  for (let p = 0; p < pieces; p++) {
    const centre = from + (2 * p + 1) * half;
    sum += weights[0] * f(centre);
    for (const i of [1, 2]) sum += weights[i] * (f(centre - nodes[i] * half) + f(centre + nodes[i] * half));
  }
  return sum * half;
}

type Trapezoid = Extract<SpecimenShape, {kind: "trapezoid"}>;
type Prism = Extract<SpecimenShape, {kind: "prism"}>;

function trapezoidOf(shape: SpecimenShape): Trapezoid {
  if (shape.kind !== "trapezoid") throw new Error("a trapezoid");
  return shape;
}

const widthOf =
  ({baseWidth, topWidth, height}: Trapezoid) =>
  (x: number): number =>
    topWidth + ((baseWidth - topWidth) * x) / height;

/** Displacement of the head and the largest strain. x from the head; the largest strain by golden section. */
export function strainsOf(shape: SpecimenShape): {readonly displacement: number; readonly largest: number} {
  const trapezoid = trapezoidOf(shape);
  const {height: h, thickness: e} = trapezoid;
  const width = widthOf(trapezoid);
  const strain = (x: number): number => (6 * x) / (e * width(x) ** 2);
  // By virtual work: ∫ M·x/(E·I) dx, curvature 2·ε/W.
  const displacement = integral(0, h, x => ((2 * strain(x)) / width(x)) * x);
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [0, h];
  while (high - low > 1e-9 * h) {
    const a = high - ratio * (high - low);
    const b = low + ratio * (high - low);
    if (strain(a) < strain(b)) low = a;
    else high = b;
  }
  return {displacement, largest: strain(0.5 * (low + high))};
}

/** Kinetic energy of the static deflection: ∫ W·(w/w_head)² dx over ∫ W dx. */
export function trapezoidMassRatio(shape: SpecimenShape): number {
  const trapezoid = trapezoidOf(shape);
  const width = widthOf(trapezoid);
  const h = trapezoid.height;
  const deflection = (x: number): number => integral(x, h, s => ((s - x) * s) / width(s) ** 3, 8);
  const head = deflection(0);
  return integral(0, h, x => width(x) * (deflection(x) / head) ** 2, 8) / integral(0, h, width, 1);
}

function prismOf(shape: SpecimenShape): Prism {
  if (shape.kind !== "prism") throw new Error("a prism");
  return shape;
}

/** Deflection at x under ½ N at each inner clamp, by virtual work with a unit force at x; kinks split the range. */
function prismDeflection({outerSpan: L, innerSpan, height, width}: Prism, x: number): number {
  const a = (L - innerSpan) / 2;
  const stiffness = (width * height ** 3) / 12;
  const moment = (s: number): number => 0.5 * Math.min(s, a, L - s);
  const virtual = (s: number): number => (s < x ? (s * (L - x)) / L : (x * (L - s)) / L);
  const kinks = [0, a, x, L - a, L].sort((p, q) => p - q);
  let sum = 0;
  for (let i = 1; i < kinks.length; i++) sum += integral(kinks[i - 1], kinks[i], s => moment(s) * virtual(s), 1);
  return sum / stiffness;
}

export function deflections(shape: SpecimenShape): {readonly midSpan: number; readonly clamp: number} {
  const prism = prismOf(shape);
  const a = (prism.outerSpan - prism.innerSpan) / 2;
  return {midSpan: prismDeflection(prism, prism.outerSpan / 2), clamp: prismDeflection(prism, a)};
}

/** ∫ (w/w_mid)² dx/L over w_clamp/w_mid: the force acts at the clamps, the displacement is that of mid-span. */
export function prismMassRatio(shape: SpecimenShape): number {
  const prism = prismOf(shape);
  const {midSpan, clamp} = deflections(shape);
  const L = prism.outerSpan;
  return integral(0, L, x => (prismDeflection(prism, x) / midSpan) ** 2, 12) / L / (clamp / midSpan);
}
