/** What a treatment has otherwise than the control, in words. */
import type {Section} from "../../../engine/section/types.ts";
import {quantityText, type UnitSystem} from "../../../report/live/index.ts";

export function differences(own: Section, control: Section, units: UnitSystem): string[] {
  const found: string[] = [];
  const length = (metres: number): string => quantityText(metres, "length", units);
  for (const layer of own.layers) {
    const other = control.layers.find(l => l.name === layer.name && l.role === layer.role);
    if (!other) {
      found.push(`+ ${layer.name}, ${length(layer.thickness)} of ${layer.material.name}`);
      continue;
    }
    if (Math.abs(other.thickness - layer.thickness) > 1e-9)
      found.push(`${layer.name} ${length(layer.thickness)} instead of ${length(other.thickness)}`);
    if (other.material.name !== layer.material.name) found.push(`${layer.name} of ${layer.material.name}`);
    // Of asphalt the modulus goes with the depth by itself; only a treated slab was made softer.
    else if (layer.role === "jointed" && other.material.modulus[0].modulus !== layer.material.modulus[0].modulus)
      found.push(`${layer.name} with another modulus`);
    if ((other.bondBelow ?? Infinity) !== (layer.bondBelow ?? Infinity)) found.push(`another bond below ${layer.name}`);
  }
  for (const layer of control.layers)
    if (!own.layers.some(l => l.name === layer.name && l.role === layer.role)) found.push(`without ${layer.name}`);
  const [a, b] = [own.joint, control.joint];
  if (a.spacing !== b.spacing) found.push(`joints every ${quantityText(a.spacing, "distance", units)}`);
  if (a.width !== b.width) found.push(`joint ${length(a.width)} wide`);
  if (a.unbondedStrip !== b.unbondedStrip) found.push(`unbonded ${length(a.unbondedStrip)} beside the joint`);
  if (JSON.stringify(a.transfer) !== JSON.stringify(b.transfer)) found.push("another load transfer");
  if (own.reinforcement && !control.reinforcement) found.push(`+ ${own.reinforcement.name}`);
  return found;
}
