/**
 * One wavenumber of the layered solid: amplitudes in every layer under σz = −1 at the surface.
 *
 * In a layer, with ζ = m·(distance from the top) and η = m·(distance from the bottom), κ = 3−4ν, β = 1−2ν, γ = 2−2ν:
 *
 *   2Gm·U = (A + Bζ)e^{−ζ}        + (C + Dη)e^{−η}
 *   2Gm·W = (A + B(κ + ζ))e^{−ζ}  − (C + D(κ + η))e^{−η}
 *   T     = −(A + B(β + ζ))e^{−ζ} + (C + D(β + η))e^{−η}
 *   S     = −(A + B(γ + ζ))e^{−ζ} − (C + D(γ + η))e^{−η}
 *
 * with u_r ~ U·J₁(mr), w ~ W·J₀, τrz ~ T·J₁, σz ~ S·J₀. Only decaying exponentials occur. What lies below a level is
 * a 2 × 2 reflection matrix R, (C, D) = R·(A, B) there; it is carried from the base to the surface, and the amplitudes
 * follow from the surface down, so nothing grows however large the wavenumber or however thick the layer.
 *
 * @source docs/theory/layered.md Eq. 1–5; the recursion is Kennett's (1974, doi:10.1785/BSSA0640061685) at zero frequency
 */

/** Constants of the stack, one value a layer. */
export interface Stack {
  readonly count: number;
  readonly shearModulus: Float64Array; // G [Pa]
  readonly poisson: Float64Array; // ν [–]
  readonly thickness: Float64Array; // [m]; the last is Infinity on a half-space
  readonly interfaceStiffness: Float64Array; // shear spring below the layer [Pa/m]: 0 slip, Infinity bonded; last unused
  readonly base: "half-space" | "rigid" | "springs";
  readonly springStiffness: number; // of base "springs" [Pa/m]
}

/** Amplitudes stored a layer and wavenumber: A, B (referred to the layer's top), C, D (to its bottom). */
export const AMPLITUDES = 4;

/** Scratch of `solveWavenumber`: 8 numbers a layer (reflection at the bottom, transmission into the next layer) and 10 more. */
export const workLength = (count: number): number => 8 * count + 10;

/**
 * Amplitudes of all layers at wavenumber m [1/m] > 0.
 *
 * In the first layer A and B are given less those of a homogeneous half-space, (−β, 1), which is added in closed form.
 *
 * @param amplitudes  AMPLITUDES a layer, written from `at` on; overwritten [–]
 * @param work        length ≥ workLength(count); overwritten
 */
export function solveWavenumber(
  stack: Stack,
  m: number,
  amplitudes: Float64Array,
  at: number,
  work: Float64Array,
): void {
  solveFirstLayer(stack, m, amplitudes, at, work);
  for (let j = 0; j < stack.count - 1; j++) descend(stack, m, j, amplitudes, at + AMPLITUDES * j, work);
}

/** The same of the first layer alone, which is all that the surface needs: AMPLITUDES numbers. */
export function solveFirstLayer(
  stack: Stack,
  m: number,
  amplitudes: Float64Array,
  at: number,
  work: Float64Array,
): void {
  const last = stack.count - 1;
  baseReflection(stack, m, work, 8 * last);
  for (let j = last; j > 0; j--) interfaceReflection(stack, m, j, work);
  surfaceAmplitudes(stack, m, amplitudes, at, work);
}

/** R at the bottom of the last layer, row-major at `to`. */
function baseReflection(stack: Stack, m: number, R: Float64Array, to: number): void {
  const last = stack.count - 1;
  const nu = stack.poisson[last];
  if (stack.base === "half-space") {
    R.fill(0, to, to + 4);
  } else if (stack.base === "rigid") {
    // U = W = 0
    const kappa = 3 - 4 * nu;
    R[to] = -1;
    R[to + 1] = 0;
    R[to + 2] = 2 / kappa;
    R[to + 3] = 1;
  } else {
    // T = 0 and S = −k·W, in the proportions e : f of stiffness so that no entry overflows
    const own = 2 * stack.shearModulus[last] * m;
    const e = own / (own + stack.springStiffness);
    const f = 1 - e;
    const beta = 1 - 2 * nu;
    const gamma = 2 - 2 * nu;
    const kappa = 3 - 4 * nu;
    const upC = -e - f; // e·S + f·(2Gm·W) of C = 1
    const upD = -e * gamma - f * kappa;
    const downA = -e + f;
    const downB = -e * gamma + f * kappa;
    const determinant = upD - beta * upC;
    // T: C + βD = A + βB;  second row: upC·C + upD·D = −(downA·A + downB·B)
    R[to] = (upD + beta * downA) / determinant;
    R[to + 1] = (beta * upD + beta * downB) / determinant;
    R[to + 2] = (-downA - upC) / determinant;
    R[to + 3] = (-downB - upC * beta) / determinant;
  }
}

/** R·E and E·R·E for the layer's own phase E = e^{−ζ}[1 ζ; 0 1]: the reflection seen from its top, written at `to`. */
function lift(R: Float64Array, from: number, zeta: number, to: number): void {
  const decay = zeta < 700 ? Math.exp(-2 * zeta) : 0; // avoids Infinity·0 in a half-space
  if (decay === 0) {
    R.fill(0, to, to + 4);
    return;
  }
  const r00 = R[from];
  const r10 = R[from + 2];
  const r01 = R[from + 1] + r00 * zeta;
  const r11 = R[from + 3] + r10 * zeta;
  R[to] = decay * (r00 + zeta * r10);
  R[to + 1] = decay * (r01 + zeta * r11);
  R[to + 2] = decay * r10;
  R[to + 3] = decay * r11;
}

/**
 * From the reflection at the bottom of layer j to that at the bottom of layer j − 1, and the matrix that takes the downward
 * amplitudes across. Interface: T and S continuous, W continuous, T = k·(U below − U above).
 *
 * The downward amplitudes of layer j are expanded in v (for which T = 0) and its normal; the second column is scaled
 * by k/(k + 2Gm·T), so one set of formulas holds from free slip (k = 0) to full bond (k = ∞).
 */
function interfaceReflection(stack: Stack, m: number, j: number, work: Float64Array): void {
  const top = 8 * stack.count; // reflection at the top of layer j
  lift(work, 8 * j, m * stack.thickness[j], top);
  const r00 = work[top];
  const r01 = work[top + 1];
  const r10 = work[top + 2];
  const r11 = work[top + 3];
  const nu = stack.poisson[j];
  const beta = 1 - 2 * nu;
  const tA = -1 + r00 + beta * r10; // T at the top of layer j of unit A, of unit B
  const tB = -beta + r01 + beta * r11;
  const size = Math.sqrt(tA * tA + tB * tB); // of the order of 1: hypot's care is not needed
  const cosine = tA / size;
  const sine = tB / size;

  const G = stack.shearModulus[j - 1];
  const ratio = G / stack.shearModulus[j];
  const spring = stack.interfaceStiffness[j - 1];
  const own = 2 * G * m * size;
  const bond = spring === Infinity ? 1 : spring / (spring + own);
  const nuUp = stack.poisson[j - 1];
  const betaUp = 1 - 2 * nuUp;
  const gammaUp = 2 - 2 * nuUp;

  const x = top + 4; // downward amplitudes of layer j − 1, column by column
  const y = 8 * (j - 1); // upward ones, moved to R below
  for (let column = 0; column < 2; column++) {
    const A = column === 0 ? -sine : bond * cosine;
    const B = column === 0 ? cosine : bond * sine;
    const C = r00 * A + r01 * B;
    const D = r10 * A + r11 * B;
    const U = ratio * (A + C) - (column === 0 ? 0 : 1 - bond);
    const W = ratio * (A - C + (3 - 4 * nu) * (B - D));
    const T = column === 0 ? 0 : bond * size;
    const S = -(A + C) - (2 - 2 * nu) * (B + D);
    const sumB = -(S + U) / gammaUp; // B + D in layer j − 1, and so on
    const differenceB = (W + T) / gammaUp;
    const differenceA = -T - betaUp * differenceB;
    work[x + column] = (U + differenceA) / 2;
    work[x + 2 + column] = (sumB + differenceB) / 2;
    work[y + column] = (U - differenceA) / 2;
    work[y + 2 + column] = (sumB - differenceB) / 2;
  }

  const determinant = work[x] * work[x + 3] - work[x + 1] * work[x + 2];
  const i00 = work[x + 3] / determinant;
  const i01 = -work[x + 1] / determinant;
  const i10 = -work[x + 2] / determinant;
  const i11 = work[x] / determinant;
  const c0 = work[y];
  const c1 = work[y + 1];
  const d0 = work[y + 2];
  const d1 = work[y + 3];
  work[y] = c0 * i00 + c1 * i10;
  work[y + 1] = c0 * i01 + c1 * i11;
  work[y + 2] = d0 * i00 + d1 * i10;
  work[y + 3] = d0 * i01 + d1 * i11;
  work[y + 4] = -sine * i00 + bond * cosine * i10;
  work[y + 5] = -sine * i01 + bond * cosine * i11;
  work[y + 6] = cosine * i00 + bond * sine * i10;
  work[y + 7] = cosine * i01 + bond * sine * i11;
}

/** A and B of the first layer from T = 0, S = −1 at the surface: stored less (−β, 1), and C, D at its bottom. */
function surfaceAmplitudes(stack: Stack, m: number, out: Float64Array, at: number, work: Float64Array): void {
  const top = 8 * stack.count;
  const zeta = m * stack.thickness[0];
  lift(work, 0, zeta, top);
  const nu = stack.poisson[0];
  const beta = 1 - 2 * nu;
  const gamma = 2 - 2 * nu;
  // T and S of the reflected part, of unit A and of unit B
  const tA = work[top] + beta * work[top + 2];
  const tB = work[top + 1] + beta * work[top + 3];
  const sA = -work[top] - gamma * work[top + 2];
  const sB = -work[top + 1] - gamma * work[top + 3];
  // (−1 + tA)A + (−β + tB)B = 0;  (−1 + sA)A + (−γ + sB)B = −1
  const determinant = (tA - 1) * (sB - gamma) - (tB - beta) * (sA - 1);
  const A = (tB - beta) / determinant;
  const B = (1 - tA) / determinant;
  // The excess over the half-space solves the same equations under minus the reflected tractions: no cancellation.
  const t = tA * A + tB * B;
  const s = sA * A + sB * B;
  out[at + 1] = s - t; // from −(A′ + βB′) + t = 0 and −(A′ + γB′) + s = 0, where γ − β = 1
  out[at] = t - beta * out[at + 1];
  reflect(stack, 0, zeta, A, B, out, at, work);
}

/** C and D at the bottom of layer j, from its A and B at the top; leaves A and B of the bottom in the scratch. */
function reflect(
  stack: Stack,
  j: number,
  zeta: number,
  A: number,
  B: number,
  out: Float64Array,
  at: number,
  work: Float64Array,
): void {
  const R = 8 * j;
  const bottom = 8 * stack.count + 8;
  const decay = zeta < 700 ? Math.exp(-zeta) : 0; // avoids Infinity·0 in a half-space
  work[bottom] = decay === 0 ? 0 : (A + B * zeta) * decay;
  work[bottom + 1] = B * decay;
  out[at + 2] = work[R] * work[bottom] + work[R + 1] * work[bottom + 1];
  out[at + 3] = work[R + 2] * work[bottom] + work[R + 3] * work[bottom + 1];
}

/** Amplitudes of layer j + 1 from those at the bottom of layer j. */
function descend(stack: Stack, m: number, j: number, out: Float64Array, at: number, work: Float64Array): void {
  const bottom = 8 * stack.count + 8;
  const across = 8 * j + 4;
  const A = work[across] * work[bottom] + work[across + 1] * work[bottom + 1];
  const B = work[across + 2] * work[bottom] + work[across + 3] * work[bottom + 1];
  const next = at + AMPLITUDES;
  out[next] = A;
  out[next + 1] = B;
  reflect(stack, j + 1, m * stack.thickness[j + 1], A, B, out, next, work);
}

/** Numbers a wavenumber and depth: 2Gm·W, 2Gm·U, S, T, and the J₀ part P of σr. */
export const FIELDS = 5;

/**
 * Field amplitudes at one depth of layer j; in the first layer without the half-space part.
 *
 * @param above  distance below the layer's top [m]
 * @param below  distance above its bottom [m], Infinity in a half-space
 * @param out    FIELDS numbers written from `to` on; overwritten [–]
 */
export function fieldAmplitudes(
  poisson: number,
  m: number,
  above: number,
  below: number,
  amplitudes: Float64Array,
  at: number,
  out: Float64Array,
  to: number,
): void {
  const kappa = 3 - 4 * poisson;
  const beta = 1 - 2 * poisson;
  const gamma = 2 - 2 * poisson;
  const zeta = m * above;
  const down = Math.exp(-zeta);
  const B = amplitudes[at + 1] * down;
  const A = amplitudes[at] * down + B * zeta;
  const eta = m * below;
  const up = eta < 700 ? Math.exp(-eta) : 0;
  const D = amplitudes[at + 3] * up;
  const C = up === 0 ? 0 : amplitudes[at + 2] * up + D * eta;
  out[to] = A + kappa * B - C - kappa * D;
  out[to + 1] = A + C;
  out[to + 2] = -(A + gamma * B) - (C + gamma * D);
  out[to + 3] = -(A + beta * B) + (C + beta * D);
  out[to + 4] = A + C - 2 * poisson * (B + D);
}
