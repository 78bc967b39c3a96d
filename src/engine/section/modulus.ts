import {InputError} from "../errors.ts";
import type {Material} from "./types.ts";

/**
 * Young's modulus at a temperature [Pa]: ln E linear in temperature between the given points; a single point holds at
 * any temperature. Asphalt's stiffness is close to exponential in temperature over a few tens of degrees, so a few
 * points serve; outside them nothing is guessed.
 *
 * @param temperature  [°C]
 * @throws InputError "domain" outside the points, "shape" when there is none
 */
export function modulusAt(material: Material, temperature: number): number {
  const points = material.modulus;
  const at = `${material.name}.modulus`;
  if (points.length === 0) throw new InputError("shape", `${at}.length`, 0, "≥ 1");
  if (!Number.isFinite(temperature)) throw new InputError("domain", `${at}, temperature`, temperature, "finite [°C]");
  if (points.length === 1) return points[0].modulus;
  const last = points[points.length - 1].temperature;
  if (temperature < points[0].temperature || temperature > last) {
    const need = `within the given points, ${points[0].temperature} to ${last} [°C]`;
    throw new InputError("domain", `${at}, temperature`, temperature, need);
  }
  const i = Math.max(
    1,
    points.findIndex(p => p.temperature >= temperature),
  );
  const low = points[i - 1];
  const high = points[i];
  const share = (temperature - low.temperature) / (high.temperature - low.temperature);
  return low.modulus * (high.modulus / low.modulus) ** share;
}
