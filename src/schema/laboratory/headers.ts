import {editDistance} from "../nearest.ts";
import {type Catalogue, quantityOf, type Role} from "./roles.ts";
import {findUnit, isDimensionless, isUnitOfAnything, type Unit, unitKey, units} from "./units.ts";
import {wordKey, wordKeys} from "./words.ts";

/** What a header cell was understood as. */
export type HeaderMatch<Name extends string> =
  | {readonly kind: "role"; readonly role: Role<Name>; readonly unit: Unit | null}
  | {readonly kind: "unit"; readonly role: Role<Name>; readonly found: string | null} // the unit is missing or unknown
  | {readonly kind: "unknown"};

/** One way to part a header into a name and a unit. */
interface Split {
  readonly name: string;
  readonly unit: string | null;
  readonly form: "brackets" | "mark" | "suffix" | "whole"; // all but a suffix say that this is a unit, known or not
}

function splitsOf(header: string): Split[] {
  const text = header.replaceAll(/\s+/g, " ").trim();
  const splits: Split[] = [];
  const put = (pattern: RegExp, form: Split["form"]) => {
    const match = pattern.exec(text);
    if (match?.[1].trim() && match[2].trim()) splits.push({name: match[1].trim(), unit: match[2].trim(), form});
  };
  put(/^(.*?)[[({<]([^[\](){}<>]*)[\])}>]$/, "brackets"); // strain [µε]
  put(/^([^/]*)\/(.*)$/, "mark"); // strain / µε
  put(/^(.*),(.*)$/, "mark"); // strain, µε
  put(/^(.*) in (.*)$/, "mark"); // strain in µε
  const tokens = text.split(/[\s_]+/).filter(token => token !== "");
  for (const count of [3, 2, 1]) {
    if (tokens.length <= count) continue;
    const [name, last] = [tokens.slice(0, -count).join(" "), tokens.slice(-count)];
    splits.push({name, unit: last.join(""), form: "suffix"}); // deg C
    if (count === 2) splits.push({name, unit: last.join("/"), form: "suffix"}); // um_m, km_h
  }
  splits.push({name: text, unit: null, form: "whole"});
  return splits;
}

/** Names to look up: as it is, without what stands in brackets, without a symbol at its end. */
function namesOf(name: string): string[] {
  const bare = name.replaceAll(/[[({<][^[\](){}<>]*[\])}>]/g, " ").trim();
  return [name, bare, bare.replace(/[\s,]+\p{L}[\p{L}\d]?$/u, "")];
}

function roleNamed<Name extends string>(name: string, roles: Catalogue<Name>): Role<Name> | null {
  const symbol = roles.find(({symbols}) => symbols?.includes(name.trim()));
  if (symbol) return symbol;
  for (const key of namesOf(name).map(wordKey)) {
    const role = key === "" ? undefined : roles.find(one => keysOf(one).has(key));
    if (role) return role;
  }
  return null;
}

const keysByRole = new WeakMap<Role, ReadonlySet<string>>();

function keysOf(role: Role): ReadonlySet<string> {
  let keys = keysByRole.get(role);
  if (!keys) {
    keys = new Set([role.label, ...role.synonyms].flatMap(wordKeys));
    keysByRole.set(role, keys);
  }
  return keys;
}

/** Matches one header cell. Only exact synonyms count; a header may hold its unit in brackets, behind a mark or as a suffix. */
export function matchHeader<Name extends string>(header: string, roles: Catalogue<Name>): HeaderMatch<Name> {
  if (header.length > 200) return {kind: "unknown"};
  const strain = roles.find(role => quantityOf(role) === "strain");
  const alone = strain && units.strain[0];
  if (alone && ["microstrain", "ue"].includes(unitKey(header))) return {kind: "role", role: strain, unit: alone};
  let unfit: HeaderMatch<Name> | null = null;
  for (const {name, unit, form} of splitsOf(header)) {
    const role = roleNamed(name, roles);
    if (!role) continue;
    const quantity = quantityOf(role);
    if (quantity === null) {
      if (form === "brackets" || form === "whole") return {kind: "role", role, unit: null};
      continue;
    }
    const known = unit === null ? null : findUnit(quantity, unit);
    if (known) return {kind: "role", role, unit: known};
    if (form === "suffix") {
      if (unit !== null && isUnitOfAnything(unit) && !isDimensionless(quantity))
        unfit ??= {kind: "unit", role, found: unit};
      continue;
    }
    const symbolOnly = unit === null || /^\p{L}{1,2}\d{0,2}$/u.test(unit);
    if (isDimensionless(quantity) && symbolOnly && !unfit) return {kind: "role", role, unit: units[quantity][0]};
    unfit ??= {kind: "unit", role, found: unit};
  }
  return unfit ?? {kind: "unknown"};
}

/** The role that a header with a slip of the pen probably means; null: none is near. */
export function nearRole<Name extends string>(header: string, roles: Iterable<Role<Name>>): Role<Name> | null {
  let best: Role<Name> | null = null;
  let bestDistance = Infinity;
  for (const role of roles) {
    for (const {name, unit} of splitsOf(header.slice(0, 60))) {
      const key = wordKey(name);
      if (key.length < 4 || (unit !== null && !isUnitOfAnything(unit))) continue;
      for (const target of keysOf(role)) {
        if (Math.abs(target.length - key.length) > 2 || target.length < 4) continue;
        const distance = editDistance(key, target);
        if (distance <= Math.max(1, Math.floor(key.length / 4)) && distance < bestDistance) {
          best = role;
          bestDistance = distance;
        }
      }
    }
  }
  return best;
}
