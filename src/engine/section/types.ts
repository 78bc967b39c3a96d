/**
 * The pavement as the engine sees it. SI throughout: m, N, Pa, kg, s, J, W; temperatures in °C.
 * Coordinates: x in the direction of travel with the joint at x = 0, y along the joint, z downward from the surface.
 */

import type {ComplexModulusPoint, MasterCurve, MasterCurveFit, PronySeries} from "../viscoelastic/index.ts";

/** Modulus at one temperature. */
export interface ModulusPoint {
  readonly temperature: number; // [°C]
  readonly modulus: number; // E, Young's modulus at wheel loading time [Pa]
}

/**
 * Crack growth per cycle, dc/dN = A·(E/E₀)^m·Δε^n, with ε the process-zone tip strain (docs/theory/crack.md).
 * A law holds only with its own process-zone length.
 */
export interface GrowthLaw {
  readonly coefficient: number; // A, advance per cycle at unit strain [m/cycle]
  readonly exponent: number; // n [–]
  readonly zoneLength: number; // d, process zone ahead of the tip [m]
  readonly referenceModulus: number | null; // E₀, modulus at which A was measured [Pa]; null when there is no shift
  readonly stiffnessExponent: number; // m [–]; 0 when there is no shift
}

/** Fatigue line without a crack: N = 10⁶·(ε₆(E)/ε)^k, ε₆(E) = ε₆·(E₀/E)^s: a softer asphalt bears more strain. */
export interface FatigueLine {
  readonly strainAtMillion: number; // ε₆, strain amplitude for 10⁶ cycles at the reference modulus [–]
  readonly exponent: number; // k [–]
  readonly referenceModulus: number | null; // E₀ [Pa]; null when there is no shift
  readonly stiffnessExponent: number; // s [–]; 0 when there is no shift
}

/** A relaxation modulus read off a master curve. */
export interface RelaxationPoint {
  readonly time: number; // of loading [s]
  readonly temperature: number; // [°C]
  readonly modulus: number; // E(t) [Pa]
}

/** The master curve that the moduli of a material in a layer were taken from. */
export interface StiffnessSource {
  readonly origin: "tests" | "parameters" | "estimate"; // fitted to tests, given, or estimated from the mix
  readonly file: string | null; // of the tests
  readonly curve: MasterCurve;
  readonly fit: MasterCurveFit | null; // null: it was not fitted
  readonly points: readonly ComplexModulusPoint[]; // that it was fitted to; none: it was not fitted
  readonly prony: PronySeries;
  readonly loadingFrequency: number; // of wheels at the layer's mid-depth [Hz]
  readonly speed: number | null; // of the wheels [m/s]; null: the frequency was given
  readonly factor: number; // on the moduli of the curve, as of a treated layer [–]
  readonly relaxation: {readonly daily: RelaxationPoint; readonly seasonal: RelaxationPoint} | null; // null: given as a number
}

export interface Material {
  readonly name: string;
  readonly modulus: readonly ModulusPoint[]; // ascending temperature; a single point means a constant
  readonly relaxationModulus: number; // at the loading time of a daily temperature cycle [Pa]
  readonly seasonalRelaxationModulus: number; // at that of the seasons [Pa]; the same where only one is known
  readonly masterCurve: StiffnessSource | null; // where moduli come from; null: they were given as numbers
  readonly poisson: number; // ν [–], 0 ≤ ν < 0.5
  readonly expansion: number; // α, thermal expansion [1/K]
  readonly conductivity: number; // [W/(m·K)]
  readonly density: number; // [kg/m³]
  readonly heatCapacity: number; // [J/(kg·K)]
  readonly growth: GrowthLaw | null; // required where a crack can run: overlay and interlayer
  readonly fatigue: FatigueLine | null; // null: the ordinary mechanisms are not computed for this material
  readonly source: string; // where the numbers come from, shown in the report
  readonly estimated?: true; // the modulus follows from a relation, not from a test of stiffness
}

/**
 * overlay: courses above the discontinuity; interlayer: the crack-resistant course right above the jointed layer;
 * jointed: cut at x = 0 over its full depth; foundation: everything below.
 */
export type LayerRole = "overlay" | "interlayer" | "jointed" | "foundation";

export interface Layer {
  readonly name: string;
  readonly role: LayerRole;
  readonly material: Material;
  readonly thickness: number; // [m]
  /**
   * Shear spring to the layer below [Pa/m]; Infinity or left out: full bond; 0: free slip. Not for the lowest jointed layer,
   * which has `slabFriction`, and not for foundation layers.
   */
  readonly bondBelow?: number;
}

export type LoadTransfer =
  | {readonly kind: "spring"; readonly stiffness: number} // q, vertical shear stiffness per unit joint area [Pa/m]
  | {readonly kind: "efficiency"; readonly efficiency: number} // unloaded over loaded edge deflection [–], 0 ≤ e < 1
  | {readonly kind: "test"; readonly test: DeflectionTest};

/** A falling or rolling load on a plate beside the joint, deflections measured on either side of it. */
export interface DeflectionTest {
  /** What was tested; layers above the jointed one are cracked through at the joint. */
  readonly section: Pick<Section, "layers" | "slabFriction" | "base"> & {readonly joint: Omit<Joint, "transfer">};
  readonly temperature: number | null; // of these layers [°C]; null: none of their moduli depends on it
  readonly plate: {
    readonly side: number; // of the square with its area [m]
    readonly centre: number; // from the joint plane [m]
    readonly pressure: number; // [Pa]
  };
  readonly sensors: {readonly loaded: number; readonly unloaded: number}; // from the joint plane, on either side [m]
  /** The plate before the joint, behind it, or both. */
  readonly positions: readonly {
    readonly name: "approach" | "leave";
    readonly loaded: number; // [m]
    readonly unloaded: number; // [m]
  }[];
}

export interface Joint {
  readonly spacing: number; // L, between neighbouring joints [m]
  readonly width: number; // clear width between the two faces [m]
  readonly unbondedStrip: number; // on each side of the joint plane, overlay free to slide on the jointed layer [m]
  readonly transfer: LoadTransfer;
  readonly facesTouch: boolean; // faces come into contact when a wheel closes the joint
  readonly cutDepth: number; // the discontinuity goes on so far into the foundation [m]
}

/**
 * A grid or mesh across the crack plane, as an elastic tie: where the crack is open it pulls with N = EA·w/(2·L_b) per metre
 * along the joint, w the mean opening over `height`. It resists no shear (no dowel action) and does not relax.
 */
export interface Reinforcement {
  readonly name: string;
  readonly depth: number; // in the overlay or interlayer, or on their underside [m]
  readonly height: number; // of the crack plane over which its pull is spread, its middle at `depth` [m]
  readonly stiffness: number; // EA, axial, of a metre along the joint [N/m]
  readonly bondLength: number; // L_b, on each side of the crack, along which it has let go [m]
}

/** What carries the last layer. */
export type Base =
  | {readonly kind: "rigid"} // rough and rigid
  | {
      readonly kind: "springs"; // dense liquid
      readonly stiffness: number; // vertical [Pa/m]
      readonly shear?: number; // horizontal [Pa/m]; left out: none
    };

export interface Section {
  readonly layers: readonly Layer[]; // from the surface down: overlay…, interlayer?, jointed…, foundation…
  readonly joint: Joint;
  readonly slabFriction: number; // shear spring between jointed layer and foundation [Pa/m]; Infinity: full bond; 0: free slip
  readonly base: Base;
  readonly crackInterlock: number; // shear spring between the faces of an overlay crack [Pa/m]
  readonly reinforcement?: Reinforcement; // left out: none
  readonly shearWeight: number; // weight of the shear terms in the tip strain [–], default 1
}
