/**
 * Colours for values: even steps of perceived lightness, told apart by lightness alone where hues are not seen.
 *
 * Mixed in OKLab, where equal distances look about equal:  l, m, s = (L + a·… + b·…)³, then linear sRGB by a matrix.
 * @source B. Ottosson, A perceptual color space for image processing (2020): matrices, from memory; white and black checked
 */

/** Lightness 0 to 1, chroma 0 to about 0.3, hue [°]. */
export interface Lch {
  readonly lightness: number;
  readonly chroma: number;
  readonly hue: number; // [°]
}

/** #rrggbb; what a screen cannot show is cut at its bounds. */
export function hexOf({lightness: L, chroma, hue}: Lch): string {
  const [a, b] = [chroma * Math.cos((hue * Math.PI) / 180), chroma * Math.sin((hue * Math.PI) / 180)];
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const linear = [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
  return `#${linear.map(v => byte(v).toString(16).padStart(2, "0")).join("")}`;
}

/** sRGB transfer function (IEC 61966-2-1). */
function byte(linear: number): number {
  const v = linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
  return Math.round(255 * Math.min(1, Math.max(0, v)));
}

const LIGHT = 0.97;
const DARK = 0.5;
const CHROMA = 0.125;
/** Orange and blue: apart for every common kind of colour blindness. */
const HARM = 55; // [°]
const GAIN = 240; // [°]

/** From harm (−1, orange) over nothing (0, nearly white) to gain (1, blue). */
export function divergingColour(part: number): string {
  const size = Math.min(1, Math.abs(part));
  return hexOf({
    lightness: LIGHT + (DARK - LIGHT) * size,
    chroma: CHROMA * Math.min(1, 1.4 * size),
    hue: part < 0 ? HARM : GAIN,
  });
}

/** From short (0, dark blue) to long (1, light yellow). */
export function sequentialColour(part: number): string {
  const p = Math.min(1, Math.max(0, part));
  return hexOf({lightness: 0.42 + 0.54 * p, chroma: 0.11 - 0.02 * p, hue: 265 - 165 * p});
}
