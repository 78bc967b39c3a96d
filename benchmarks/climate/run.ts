/**
 * Ten years of hourly weather through heat balance, conduction and the counting of tip-strain cycles, in one thread: what a
 * long record costs. The years are the example's, each hour made warmer or colder and each day brighter or duller by chance.
 * One JSON line a part on standard output; the mechanical response, which does not depend on the record, stands apart.
 *
 *   node benchmarks/climate/run.ts
 */
import {pavementTemperatures, type WeatherRecord} from "../../src/engine/climate/index.ts";
import {tipLaws} from "../../src/engine/life/passes.ts";
import {thermalParts} from "../../src/engine/life/seasons.ts";
import {
  thermalCondition,
  thermalCycles,
  thermalGrowth,
  thermalHistory,
  thermalResponse,
} from "../../src/engine/life/thermal.ts";
import {responseGeometry, tipLayers} from "../../src/engine/response/index.ts";
import {randomStream} from "../../src/engine/statistics/index.ts";
import {peakMB, tell} from "../line.ts";
import {exampleStudy, ROAD, roadSection} from "../section.ts";
import {type Times, timesOf} from "../times.ts";

const YEARS = 10;
const RUNS = 5;
const SEED = 1;
const DAYS_REMEMBERED = 5; // of a departure from the example's year
const DEPARTURE = 2.5; // its standard deviation [K]
const HALVED = 1; // mesh of the pair

const study = exampleStudy(ROAD);
const section = roadSection();
const weather = perturbed(study.weather!, YEARS);
const years = {years: YEARS, hours: weather.temperature.length};

let temperatures = pavementTemperatures(section, weather, study.exchange);
const heat = timesOf(
  () => {
    temperatures = pavementTemperatures(section, weather, study.exchange);
  },
  {warmUp: 1, runs: RUNS},
);
tell({what: "heat balance and conduction", ...years, ...heat});

const geometry = responseGeometry(section, {accuracy: study.accuracy, reach: 0});
let response = thermalResponse(geometry);
const mechanics = timesOf(
  () => {
    response = thermalResponse(geometry);
  },
  {warmUp: 0, runs: 1},
);
tell({what: "response to temperature", states: geometry.meshes[HALVED].space.states.length, ...mechanics});

const {model, space} = geometry.meshes[HALVED];
const laws = tipLaws(section, thermalCondition(section).moduli, tipLayers(model, space));
const counting = timesOf(
  () => {
    const parts = thermalParts(geometry, response, thermalHistory(temperatures, study.neutralTemperature));
    thermalGrowth(space, parts, laws);
    thermalCycles(parts, {state: 0, tip: 0, planeStrainModulus: laws[0]!.planeStrainModulus});
  },
  {warmUp: 1, runs: RUNS},
);
tell({what: "cycles of all crack states counted", states: space.states.length, ...years, ...counting});
const both = (of: keyof Times): number => heat[of] + counting[of];
tell({
  what: "a record's hours, all together",
  ...years,
  ms: both("ms"),
  leastMs: both("leastMs"),
  runs: RUNS,
  peakMB: peakMB(),
  versions: {node: process.version},
});

/** Years one after the other, each departing from the record by weather of its own. */
function perturbed(record: WeatherRecord, count: number): WeatherRecord {
  const {temperature, solar, wind} = record;
  const hours = temperature.length;
  const random = randomStream(SEED);
  const keep = Math.exp(-1 / (24 * DAYS_REMEMBERED));
  const kick = DEPARTURE * Math.sqrt(1 - keep * keep);
  let departure = 0;
  let brightness = 1;
  const warm = new Float64Array(count * hours);
  const sun = new Float64Array(count * hours);
  for (let i = 0; i < warm.length; i++) {
    if (i % 24 === 0) brightness = 0.9 + 0.2 * random.uniform();
    departure = keep * departure + kick * random.normal();
    warm[i] = temperature[i % hours] + departure;
    sun[i] = brightness * solar![i % hours];
  }
  return {...record, temperature: warm, solar: sun, wind: Float64Array.from(warm, (_, i) => wind![i % hours])};
}
