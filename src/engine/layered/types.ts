/** Multilayer elasticity, SI. z and w downward positive, tension positive. */

/** One isotropic layer. */
export interface ElasticLayer {
  readonly modulus: number; // E [Pa]
  readonly poisson: number; // ν [–], 0 ≤ ν ≤ 0.5
  readonly thickness: number; // [m]; Infinity for the last layer on base "half-space", and only there
  /** Shear spring to the layer below [Pa/m]: Infinity full bond (default), 0 frictionless slip. Not used below the last. */
  readonly shearSpringBelow?: number;
}

/** What the last layer rests on; it is itself the half-space, or has a rough rigid or a smooth sprung underside. */
export type ElasticBase =
  | {readonly kind: "half-space"}
  | {readonly kind: "rigid"} // no displacement
  | {readonly kind: "springs"; readonly stiffness: number}; // σz = −k·w, no shear [Pa/m]

/** Uniform vertical pressure on a circle of the surface. */
export interface CircularLoad {
  readonly x: number; // centre [m]
  readonly y: number; // [m]
  readonly radius: number; // [m]
  readonly pressure: number; // downward positive [Pa]
}

export interface FieldPoint {
  readonly x: number; // [m]
  readonly y: number; // [m]
  readonly z: number; // depth [m]
  readonly layer?: number; // index of the layer meant, for a point on an interface; the upper one when left out
}

/** Symmetric tensor in Cartesian components; shear strains are tensor components, ½γ. */
export interface SymmetricTensor {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly xz: number;
  readonly yz: number;
}

export interface PointResponse {
  readonly displacement: {readonly x: number; readonly y: number; readonly z: number}; // [m]
  readonly stress: SymmetricTensor; // [Pa]
  readonly strain: SymmetricTensor; // [–]
}

export interface LayeredResponse {
  readonly points: readonly PointResponse[]; // in the order asked for
  readonly wavenumbers: number; // quadrature nodes used
  readonly residual: number; // difference of two quadratures of the most oscillating integrals, relative [–]
}

export interface LayeredModel {
  /** Superposed response to all loads at all points. @throws InputError "domain" | "shape" | "convergence" */
  readonly respond: (loads: readonly CircularLoad[], points: readonly FieldPoint[]) => LayeredResponse;
}
