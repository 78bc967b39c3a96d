/** The units of documents into SI. Divisions by exact powers of ten, so that 80 mm is 0.08 m. */
export const fromMm = (value: number): number => value / 1000; // → m
export const perMm = (value: number): number => value * 1000; // /mm → /m
export const perTonne = (value: number): number => value / 1000; // /t → /kg
export const fromUm = (value: number): number => value / 1e6; // → m
export const fromKN = (value: number): number => value * 1000; // → N
export const fromMPa = (value: number): number => value * 1e6; // → Pa
export const fromMPaPerMm = (value: number): number => value * 1e9; // → Pa/m
export const fromPercent = (value: number): number => value / 100; // → –
export const fromMicrostrain = (value: number): number => value / 1e6; // → –
export const fromDegrees = (value: number): number => (value * Math.PI) / 180; // → rad
export const fromKmPerHour = (value: number): number => value / 3.6; // → m/s
export const fromHours = (value: number): number => value * 3600; // → s
export const fromKJPerMol = (value: number): number => value * 1000; // → J/mol
export const fromLgMPa = (value: number): number => value + 6; // → lg Pa
export const fromTenthMm = (value: number): number => value / 10_000; // → m
