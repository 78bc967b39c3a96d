import type {LoadClass, Traffic, TrafficCalendar, Wander, Wheel} from "../engine/traffic/types.ts";
import {standardAxleClass} from "./check-traffic.ts";
import {fromMm, fromPercent} from "./si.ts";
import {referenceWheels, type SpectrumDocument, spectrumName, wheelUnder} from "./spectra.ts";
import type {TrafficDocument} from "./study.ts";
import {toWander} from "./wander.ts";
import {contactRectangle_mm, type LoadDocument, type Patch, wheelCentres_mm} from "./wheels.ts";

/** Checked traffic in the engine's terms: standard axles, each load of each spectrum, and classes of their own. */
export function toTraffic(traffic: TrafficDocument): Traffic {
  const {standard_axle: axle, standard_axles: standard} = traffic;
  const lane = fromPercent(traffic.design_lane.direction_percent) * fromPercent(traffic.design_lane.lane_percent);
  const wander = toWander({wander_mm: standard?.wander_mm});
  const classes: LoadClass[] = [];
  const standardWheels = wheelsOf(axle, contactRectangle_mm(axle));
  if (standard)
    classes.push({
      name: standardAxleClass,
      group: null,
      wheels: standardWheels,
      passesPerYear: lane * standard.passes_per_year,
      growth: fromPercent(standard.growth_percent),
      wander,
    });
  for (const spectrum of traffic.spectra) classes.push(...spectrumClasses(spectrum, lane));
  for (const load of traffic.load_classes)
    classes.push({
      name: load.name,
      group: null,
      wheels: wheelsOf(load, contactRectangle_mm(load)),
      passesPerYear: lane * load.passes_per_year,
      growth: fromPercent(load.growth_percent),
      wander: toWander(load),
    });
  const standardAxle = {
    name: "standard axle",
    group: null,
    wheels: standardWheels,
    passesPerYear: 0,
    growth: 0,
    wander,
  };
  return {classes, standardAxle, calendar: toCalendar(traffic)};
}

function spectrumClasses(spectrum: SpectrumDocument, lane: number): LoadClass[] {
  const reference = referenceWheels(spectrum)!; // well given: checkSpectrum
  const wheels = wheelCentres_mm(reference)!.length;
  const group = spectrumName(spectrum);
  const wander: Wander = toWander(spectrum);
  return spectrum.loads!.map(({load_kN, passes_per_year}): LoadClass => {
    const {wheel_load_kN, patch} = wheelUnder(reference, wheels, load_kN, spectrum.contact);
    return {
      name: `${group} ${load_kN} kN`,
      group,
      wheels: wheelsOf({...reference, wheel_load_kN}, patch),
      passesPerYear: lane * passes_per_year,
      growth: fromPercent(spectrum.growth_percent),
      wander,
    };
  });
}

function wheelsOf(load: LoadDocument, patch: Patch): Wheel[] {
  const centres = wheelCentres_mm(load)!; // well given: checkTraffic
  return centres.map(({x, y}) => ({
    x: fromMm(x),
    y: fromMm(y),
    load: load.wheel_load_kN * 1000,
    length: fromMm(patch.length),
    width: fromMm(patch.width),
  }));
}

function toCalendar({by_hour_percent, by_month_percent}: TrafficDocument): TrafficCalendar {
  const shares = (percent: readonly number[] | undefined): readonly number[] | null => {
    if (!percent) return null;
    const total = percent.reduce((sum, share) => sum + share, 0); // 100 within rounding: checkTraffic
    return percent.map(share => share / total);
  };
  return {hours: shares(by_hour_percent), months: shares(by_month_percent)};
}
