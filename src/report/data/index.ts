/** Each chart's numbers as comma-separated values, metric, with the units in the headings. Names never read as formulas. */
export {equivalenceCsv, frontsCsv, riskCsv} from "../csv.ts";
export {searchCsv} from "../searchCsv.ts";
export {surveyCsv} from "../surveyCsv.ts";
export {
  beamCsv,
  comparisonCsv,
  fatigueLinesCsv,
  growthLawsCsv,
  historiesCsv,
  predictionsCsv,
  specimensCsv,
} from "./laboratoryData.ts";
export {binsCsv, layersCsv, livesCsv, tipAlongCsv, tipStrainCsv} from "./lifeData.ts";
export {costsCsv, fanCsv, survivalCsv, swingsCsv} from "./riskData.ts";
export {bowlCsv, masterCurveCsv, modulusReadingsCsv, relaxationCsv, shiftCsv} from "./stiffnessData.ts";
export {cyclesCsv, depthTemperaturesCsv, envelopeCsv, temperatureCsv} from "./temperatureData.ts";
