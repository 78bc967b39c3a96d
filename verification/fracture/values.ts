/** Reference values of the fracture cases: independent computations, none of them ours here. */

/**
 * Edge crack a in a strip of width W, α = a/W: K = σ√(πa)·F, mouth opening 4σaV/E'. Singular integral equation of
 * distributed dislocations with the exact kernel of the strip, extrapolated; F of tension and bending agree to all
 * figures with Kaya & Erdogan 1987 as remembered.
 *
 * α, F tension, V tension, F bending, V bending, F in-plane shear, V in-plane shear.
 */
export const EDGE_CRACK = [
  [0.1, 1.18918, 1.54899, 1.04718, 1.45285, 1.121904, 1.45453],
  [0.2, 1.36732, 1.8271, 1.05528, 1.59104, 1.126411, 1.45773],
  [0.3, 1.65986, 2.34527, 1.12411, 1.87132, 1.141912, 1.46921],
  [0.4, 2.11141, 3.26186, 1.26063, 2.35318, 1.176264, 1.49563],
  [0.5, 2.82456, 4.94029, 1.49716, 3.1846, 1.239064, 1.54546],
  [0.6, 4.03307, 8.2908, 1.91394, 4.73106, 1.345028, 1.63136],
  [0.7, 6.35477, 16.06493, 2.72518, 8.06139, 1.522919, 1.77629],
  [0.8, 11.95472, 39.79617, 4.67613, 17.48508, 1.845904, 2.03199],
] as const;

/**
 * Exponent λ of the stresses r^−λ at a tip that meets an interface at right angles: modulus ahead over modulus of the
 * cracked half, λ for ν = 0.2 and for ν = 0.35. Zak & Williams 1963 in the form of He & Hutchinson 1989; the same from
 * the determinant of the Williams eigenfunctions, for both symmetries.
 */
export const INTERFACE_EXPONENT = [
  [0.01, 0.912143, 0.915995],
  [0.1, 0.749978, 0.755135],
  [0.2, 0.677348, 0.679275],
  [0.5, 0.576243, 0.573286],
  [2, 0.425403, 0.438741],
  [5, 0.338451, 0.380682],
  [10, 0.290081, 0.353815],
  [100, 0.227614, 0.324044],
] as const;

/**
 * Crack of length 0.2·W across a layer 0 < z < W on a half-plane, ν = 0.35 in both, its near tip at d from the interface,
 * uniform tractions on its faces: K/(p√(0.1πW)) at the near and far tip. Dislocation integral equation.
 *
 * Modulus of half-plane over layer, d/W, mode I near and far, mode II near and far.
 */
export const BURIED_CRACK = [
  [0.01, 0.2, 1.05454, 1.04046, 1.04238, 1.03442],
  [0.01, 0.05, 1.25834, 1.13741, 1.2018, 1.09943],
  [0.01, 0.02, 1.54591, 1.21936, 1.45296, 1.16234],
  [0.1, 0.1, 1.08971, 1.05671, 1.07626, 1.04835],
  [0.1, 0.02, 1.38541, 1.14834, 1.35016, 1.12665],
  [1, 0.1, 1.00369, 1.00419, 1.00369, 1.00419],
  [10, 0.2, 0.98024, 0.98765, 0.98029, 0.98764],
  [10, 0.05, 0.884, 0.94628, 0.88435, 0.94656],
  [10, 0.02, 0.77909, 0.92158, 0.77939, 0.9219],
] as const;

export const EDGE_TIPS = [0.1, 0.2, 0.3, 0.5, 0.7, 0.8, 0.9] as const;

/**
 * Crack from the free face of the same layer, a/W as in EDGE_TIPS: K/(p√(πa)), modes I and II, by modulus of the
 * half-plane over that of the layer. Dislocation integral equation.
 */
export const SURFACE_CRACK = [
  {ratio: 0.01, I: [1.1701, 1.2896, 1.4642, 1.9673, 2.6402, 3.0008, 3.4651]},
  {ratio: 0.01, II: [1.1219, 1.1262, 1.1409, 1.233, 1.5006, 1.8022, 2.497]},
  {ratio: 1, I: [1.1215, 1.1215, 1.1215, 1.1215, 1.1215, 1.1215, 1.1215]},
  {ratio: 1, II: [1.1215, 1.1215, 1.1215, 1.1215, 1.1215, 1.1215, 1.1215]},
  {ratio: 10, I: [1.1091, 1.0821, 1.0495, 0.9783, 0.8941, 0.837, 0.7498]},
  {ratio: 10, II: [1.1214, 1.1196, 1.1136, 1.0767, 0.9843, 0.9042, 0.7819]},
] as const;

/**
 * Overlay (E 4000 MPa, ν 0.35, 100 mm) bonded to an interlayer (E 120 MPa, ν 0.45, 12 mm) on a rigid base whose halves
 * part by 0.5 mm or step by 0.1 mm at the joint, plane strain. Fourier integrals of the Airy stress function.
 */
export const OVERLAY = {
  /** Depth/h₁, horizontal stress on the joint plane when the base parts [MPa]. */
  opening: [
    [0, 1.457743],
    [0.25, 2.106221],
    [0.5, 2.582851],
    [0.75, 3.271884],
    [0.9, 4.230405],
    [1, 6.018526],
  ],
  openingForce: 280.8574, // of the overlay [N/mm]
  /** Distance from the joint [mm], horizontal displacement of the overlay's underside there [mm]. */
  underside: [
    [10, 0.011144],
    [25, 0.027695],
    [50, 0.0486083],
    [100, 0.0780951],
    [250, 0.1322647],
  ],
  /** Depth/h₁, shear stress on the joint plane when the base steps [MPa]. */
  stepping: [
    [0.25, 0.358665],
    [0.5, 0.544259],
    [0.75, 0.655875],
    [0.9, 0.685059],
    [1, 0.663134],
  ],
  steppingForce: 48.55711, // shear force of the overlay [N/mm]
} as const;
