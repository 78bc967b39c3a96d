/**
 * A beam of finite length with free ends on Winkler's foundation, by initial parameters with Krylov's functions of t = βx:
 *
 *   Y₁ = cosh t·cos t,  Y₂ = ½(cosh t·sin t + sinh t·cos t),  Y₃ = ½·sinh t·sin t,  Y₄ = ¼(cosh t·sin t − sinh t·cos t)
 *   Y₁′ = −4Y₄,  Y₂′ = Y₁,  Y₃′ = Y₂,  Y₄′ = Y₃
 *
 * w = w₀·Y₁ + (θ₀/β)·Y₂ + (p/k)·[Y₁(β⟨x − s₂⟩) − Y₁(β⟨x − s₁⟩)] under a pressure p over s₁ … s₂; w₀ and θ₀ from w″ = w‴ = 0
 * at the far end. Derived here; the same as Hetényi's closed forms.
 */
export interface FiniteBeam {
  readonly length: number; // [m]
  readonly rigidity: number; // EI of a unit of width [N·m]
  readonly support: number; // k [Pa/m]
}

export interface Deformed {
  readonly deflection: number; // w, downward [m]
  readonly moment: number; // −EI·w″, sagging positive [N]
  readonly shear: number; // −EI·w‴ [N/m]
}

type Four = readonly [number, number, number, number];

function krylov(t: number): Four {
  const [C, S, c, s] = [Math.cosh(t), Math.sinh(t), Math.cos(t), Math.sin(t)];
  return [C * c, (C * s + S * c) / 2, (S * s) / 2, (C * s - S * c) / 4];
}

/** β [1/m]. */
export const characteristic = ({rigidity, support}: FiniteBeam): number => (support / (4 * rigidity)) ** 0.25;

/** @param load a uniform pressure [Pa] from … to, measured as x is, from the left end [m] */
export function finiteBeam(
  beam: FiniteBeam,
  load: {readonly from: number; readonly to: number; readonly pressure: number},
): (x: number) => Deformed {
  const {length, rigidity, support} = beam;
  const b = characteristic(beam);
  /** w, w″, w‴ of one function: value of Y, and its derivatives by x. */
  const first = (x: number): Four => {
    const [y1, y2, y3] = krylov(b * x);
    return [y1, 0, -4 * b ** 2 * y3, -4 * b ** 3 * y2];
  };
  const second = (x: number): Four => {
    const [, y2, y3, y4] = krylov(b * x);
    return [y2, 0, -4 * b ** 2 * y4, -4 * b ** 3 * y3];
  };
  const forced = (x: number): Four => {
    const [near, far] = [first(Math.max(0, x - load.to)), first(Math.max(0, x - load.from))];
    return near.map((v, k) => (load.pressure / support) * (v - far[k])) as unknown as Four;
  };
  const [A, B, F] = [first(length), second(length), forced(length)];
  const determinant = A[2] * B[3] - A[3] * B[2];
  const w0 = (-F[2] * B[3] + F[3] * B[2]) / determinant;
  const turn = (-A[2] * F[3] + A[3] * F[2]) / determinant; // θ₀/β
  return x => {
    const [a, c, f] = [first(x), second(x), forced(x)];
    const at = (k: number): number => w0 * a[k] + turn * c[k] + f[k];
    return {deflection: at(0), moment: -rigidity * at(2), shear: -rigidity * at(3)};
  };
}
