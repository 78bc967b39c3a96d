import {type ReadingOptions, type ReadOutcome, readSource} from "./read.ts";
import {rememberingReader} from "./remembering.ts";
import {parseSource} from "./source.ts";
import {type Variations, variationsOf} from "./variations.ts";

/** Reads one text after another, as they come while a study is written. */
export interface StudyReader {
  /** As `readStudy`; the record is read and curves are fitted anew only where their description or their files have changed. */
  read(text: string): ReadOutcome;
  /** As `studyVariations`, with the same memory. The files must not change while it is in use. */
  variations(text: string): Variations;
}

export function studyReader(options: ReadingOptions): StudyReader {
  const reader = rememberingReader(options);
  return {
    read: text => readSource(parseSource(text), reader),
    variations: text => variationsOf(parseSource(text), reader),
  };
}
