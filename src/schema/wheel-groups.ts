/** Arrangement of wheels, as in the document. */
export interface Arrangement {
  readonly axles: number;
  readonly axle_spacing_mm?: number | undefined;
  readonly tyres_per_side: number;
  readonly tyre_spacing_mm?: number | undefined;
  readonly track_mm?: number | undefined;
}

interface WheelGroup {
  readonly arrangement: Arrangement;
  readonly wheel_load_kN: number; // usual load of one tyre …
  readonly pressure_MPa: number; // … and the pressure under it
  readonly contact_width_mm?: number | undefined;
}

const dualTyres = {tyres_per_side: 2, tyre_spacing_mm: 340, track_mm: 1800};
const wideTyre = {tyres_per_side: 1, track_mm: 2050};
const dualTyre = {wheel_load_kN: 20, pressure_MPa: 0.7};
const wideTyreLoad = {wheel_load_kN: 40, pressure_MPa: 0.85, contact_width_mm: 290};
const gearLoad = {wheel_load_kN: 200, pressure_MPa: 1.4};

/**
 * Axle groups of heavy vehicles and legs of aircraft gears, named by their geometry. Distances, tyre loads and pressures are
 * the middle of those met in practice (tyres 315 to 350 mm apart at 20 kN and 0.7 MPa, axles of a group 1.2 to 1.5 m apart,
 * narrow-body dual gears 0.86 to 0.93 m, wide-body gears 1.1 to 1.4 m by 1.45 to 1.5 m at 1.4 to 1.55 MPa): common
 * practice, no source.
 */
export const wheelGroups = {
  "single axle with single tyres": {
    arrangement: {axles: 1, tyres_per_side: 1, track_mm: 2050},
    wheel_load_kN: 35,
    pressure_MPa: 0.8,
  },
  "single axle with dual tyres": {arrangement: {axles: 1, ...dualTyres}, ...dualTyre},
  "tandem axle with dual tyres": {arrangement: {axles: 2, axle_spacing_mm: 1350, ...dualTyres}, ...dualTyre},
  "tridem axle with dual tyres": {arrangement: {axles: 3, axle_spacing_mm: 1300, ...dualTyres}, ...dualTyre},
  "tandem axle with wide tyres": {arrangement: {axles: 2, axle_spacing_mm: 1350, ...wideTyre}, ...wideTyreLoad},
  "tridem axle with wide tyres": {arrangement: {axles: 3, axle_spacing_mm: 1300, ...wideTyre}, ...wideTyreLoad},
  "single wheel gear": {arrangement: {axles: 1, tyres_per_side: 1}, wheel_load_kN: 120, pressure_MPa: 1.2},
  "dual wheel gear": {
    arrangement: {axles: 1, tyres_per_side: 2, tyre_spacing_mm: 900},
    wheel_load_kN: 180,
    pressure_MPa: 1.4,
  },
  "dual tandem gear": {
    arrangement: {axles: 2, axle_spacing_mm: 1450, tyres_per_side: 2, tyre_spacing_mm: 1150},
    ...gearLoad,
  },
  "triple tandem gear": {
    arrangement: {axles: 3, axle_spacing_mm: 1450, tyres_per_side: 2, tyre_spacing_mm: 1400},
    ...gearLoad,
  },
} as const satisfies Record<string, WheelGroup>;

export type WheelGroupName = keyof typeof wheelGroups;
export const wheelGroupNames = Object.keys(wheelGroups) as [WheelGroupName, ...WheelGroupName[]];
