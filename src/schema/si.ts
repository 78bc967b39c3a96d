/** The units of documents into SI. Divisions by exact powers of ten, so that 80 mm is 0.08 m. */
export const fromMm = (value: number): number => value / 1000; // → m
export const fromUm = (value: number): number => value / 1e6; // → m
export const fromKN = (value: number): number => value * 1000; // → N
export const fromMPa = (value: number): number => value * 1e6; // → Pa
export const fromMPaPerMm = (value: number): number => value * 1e9; // → Pa/m
export const fromPercent = (value: number): number => value / 100; // → –
export const fromMicrostrain = (value: number): number => value / 1e6; // → –
