/** The words and numbers of laboratory results, for the page that shows them piece by piece. */
export {
  AT_STRAIN,
  beamRows,
  calibrationAnswer,
  choiceText,
  coefficientText,
  levelText,
  originText,
  otherMaterials,
  rateText,
  warningTexts,
} from "../calibration.ts";
export {comparedAt, fatigueAnswer, findingTexts, lineTexts} from "../fatigue.ts";
export {count, figures, intervalText, percent} from "../format.ts";
export {SERIES} from "../palette.ts";
