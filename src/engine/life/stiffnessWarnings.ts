/** Where moduli rest on no measurement: estimated from a mix, or read off a master curve beyond its tests. */
import {
  type BeyondTests,
  beyondTests,
  type Layer,
  relaxationBeyondTests,
  type Section,
  type StiffnessSource,
} from "../section/index.ts";
import type {TemperatureBin} from "./types.ts";

/** @param thermal whether growth by temperature is computed */
export function stiffnessWarnings({layers}: Section, bins: readonly TemperatureBin[], thermal: boolean): string[] {
  return layers.flatMap(layer => {
    const source = layer.material.masterCurve;
    if (!source) return [];
    if (source.origin === "estimate")
      return [`The stiffness of ${layer.material.name} is estimated from its mix; nobody measured it.`];
    return [...wheelWarnings(layer, source, bins), ...(thermal ? relaxationWarnings(layer, source) : [])];
  });
}

function wheelWarnings({name, material}: Layer, source: StiffnessSource, bins: readonly TemperatureBin[]): string[] {
  const {curve, loadingFrequency} = source;
  const beyond = bins.flatMap(({temperature}) => {
    const text = beyondText(beyondTests(curve, temperature, loadingFrequency));
    return text === null ? [] : [`${temperature.toFixed(0)} °C (${text})`];
  });
  if (!beyond.length) return [];
  return [
    `The modulus of ${material.name} in ${name} under wheels, ${loadingFrequency.toPrecision(2)} Hz, is extrapolated beyond ` +
      `the tests at ${beyond.join(", ")}.`,
  ];
}

function relaxationWarnings({material}: Layer, {curve, relaxation}: StiffnessSource): string[] {
  if (!relaxation) return [];
  const beyond = [relaxation.daily, relaxation.seasonal].flatMap(point => {
    const text = beyondText(relaxationBeyondTests(curve, point));
    return text === null ? [] : [`${hoursText(point.time)} of loading (${text})`];
  });
  if (!beyond.length) return [];
  return [
    `The relaxation modulus of ${material.name} at ${relaxation.daily.temperature.toFixed(1)} °C is extrapolated beyond the tests ` +
      `after ${beyond.join(" and ")}.`,
  ];
}

function hoursText(time: number): string {
  return `${Number((time / 3600).toPrecision(3))} h`;
}

/** "4 K colder, reduced frequency 1.2 decades higher"; null: within the tests. */
function beyondText(beyond: BeyondTests | null): string | null {
  if (!beyond) return null;
  const {temperature, decades} = beyond;
  const parts = [
    temperature && `${Math.abs(temperature).toPrecision(2)} K ${temperature < 0 ? "colder" : "warmer"}`,
    decades && `reduced frequency ${Math.abs(decades).toPrecision(2)} decades ${decades < 0 ? "lower" : "higher"}`,
  ].filter(Boolean);
  return parts.length ? parts.join(", ") : null;
}
