/** Words that cells may hold instead of numbers. */

/** A word → one spelling: case, accents, blanks and punctuation do not count. */
export function wordKey(text: string): string {
  return text
    .replaceAll("ß", "ss")
    .normalize("NFKD")
    .replaceAll(/\p{Mark}/gu, "")
    .toLowerCase()
    .replaceAll("μ", "u")
    .replaceAll(/[^\p{L}\p{N}*|>]/gu, "");
}

/** The word itself and, with umlauts, its spelling without them: Höhe, Hoehe. */
export function wordKeys(text: string): string[] {
  const spelled = text.replaceAll(/[äöü]/gi, letter => `${letter.normalize("NFD")[0]}e`);
  return [...new Set([wordKey(text), wordKey(spelled)])];
}

const keys = (...words: string[]): ReadonlySet<string> => new Set(words.flatMap(wordKeys));

export const flagWords = {
  yes: ["yes", "y", "x", "1", "true", ">", "run-out", "ja", "j", "oui", "o", "sí", "s", "wahr", "vrai", "verdadero"],
  no: ["no", "n", "0", "false", "–", "-", "nein", "non", "falsch", "faux", "falso", "failed"],
} as const;
const yes = keys(...flagWords.yes, "✓", "✔");
const no = keys(...flagWords.no);

/** Whether a flag is set; an empty cell is not. Null: no word that is known. */
export function readFlag(text: string): boolean | null {
  const key = wordKey(text);
  if (/^[✓✔]$/.test(text)) return true;
  if (text === "" || /^[-–—]$/.test(text)) return false;
  if (key === "") return null;
  return yes.has(key) ? true : no.has(key) ? false : null;
}

export type CrackWord = "not visible" | "through" | "stopped";

export const crackWords: Readonly<Record<CrackWord, readonly string[]>> = {
  "not visible": [
    "not visible",
    "none",
    "no crack",
    "invisible",
    "n.v.",
    "nicht sichtbar",
    "kein Riss",
    "keiner",
    "non visible",
    "pas de fissure",
    "aucune",
    "no visible",
    "sin fisura",
    "ninguna",
  ],
  through: [
    "through",
    "full depth",
    "broken",
    "cracked through",
    "durch",
    "durchgerissen",
    "gebrochen",
    "traversante",
    "rompu",
    "rompue",
    "pasante",
    "roto",
    "total",
  ],
  stopped: [
    "test stopped",
    "stopped",
    "stop",
    "end of test",
    "Versuch beendet",
    "Versuchsende",
    "abgebrochen",
    "essai arrêté",
    "fin d'essai",
    "ensayo detenido",
    "fin de ensayo",
  ],
};
const crackKeys: ReadonlyMap<string, CrackWord> = new Map(
  (Object.keys(crackWords) as CrackWord[]).flatMap(word =>
    crackWords[word].flatMap(wordKeys).map((key): [string, CrackWord] => [key, word]),
  ),
);

export function readCrackWord(text: string): CrackWord | null {
  return crackKeys.get(wordKey(text)) ?? null;
}
