/** A study with some of its values replaced, read as if they had been written so. */
import type {WeatherRecord} from "../engine/climate/types.ts";
import type {DocumentPath} from "./fault.ts";
import {valueAt} from "./findings.ts";
import {type FoundPath, findPath} from "./paths.ts";
import {type Reader, type ReadingOptions, type ReadOutcome, readSource, withWeather} from "./read.ts";
import {fetchedOnce, rememberingReader} from "./remembering.ts";
import {parseSource, type Source} from "./source.ts";

/** One value of the document, by its path, and what stands there instead. */
export interface Edit {
  readonly path: DocumentPath;
  readonly value: unknown;
}

export interface Variations {
  readonly base: ReadOutcome;
  /**
   * The place that a path like section.layers.overlay.thickness_mm means: entries of lists by their name or number. Its value
   * must be there already.
   */
  find(path: string): FoundPath;
  /**
   * Records, curves and laws are read once; all checks are made anew but those of how uncertain the values are: one of them may
   * well lie at the end of its own spread.
   *
   * @param weather  what becomes of the temperature record before anything is done with it
   */
  vary(edits: readonly Edit[], weather?: (record: WeatherRecord) => WeatherRecord): ReadOutcome;
  /** The same with what is uncertain about these values. */
  varyWithUncertainty(edits: readonly Edit[]): ReadOutcome;
}

/** @param text the document */
export function studyVariations(text: string, options: ReadingOptions): Variations {
  const readCsv = fetchedOnce(options.readCsv);
  return variationsOf(parseSource(text), rememberingReader({readLaw: options.readCsv, ...options, readCsv}));
}

/** @param reader  remembers records and curves */
export function variationsOf(source: Source, reader: Reader): Variations {
  return {
    base: readSource(source, reader),
    find: path => findPath(source.raw, path),
    vary: (edits, weather) =>
      readSource(
        withoutUncertainty(edited(source, edits)),
        weather === undefined ? reader : withWeather(reader, weather),
      ),
    varyWithUncertainty: edits => readSource(edited(source, edits), reader),
  };
}

function withoutUncertainty(source: Source): Source {
  if (typeof source.raw !== "object" || source.raw === null) return source;
  return {...source, raw: {...source.raw, uncertainty: undefined}};
}

function edited(source: Source, edits: readonly Edit[]): Source {
  const raw = structuredClone(source.raw);
  for (const {path, value} of edits) {
    const parent = valueAt(raw, path.slice(0, -1));
    if (typeof parent === "object" && parent !== null)
      (parent as Record<string | number, unknown>)[path[path.length - 1]] = value;
  }
  return {...source, raw};
}
