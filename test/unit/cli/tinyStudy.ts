/** A study whose lives are computed in a second: one load class, one temperature, no record. */
import {goodText} from "../schema/good-study.ts";

/** The good study less what takes time, with so much traffic that it ends. */
export const tinyText = goodText
  .replace(/ {4}modulus_by_temperature:\n(?: {6}- .*\n)+/, "    modulus_MPa: 4000\n")
  .replace(/ {2}load_classes:\n(?: {4,}.*\n)+/, "")
  .replace("passes_per_year: 60000", "passes_per_year: 900000")
  .replace(/climate:\n(?: {2,}.*\n)+/, "temperature_bins:\n  - {temperature_C: 15, share_percent: 100}\n");
