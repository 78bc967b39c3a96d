import type {z} from "zod";
import {type DocumentPath, type Findings, foundText} from "./fault.ts";
import {valueAt} from "./findings.ts";
import {acceptedText, keysAt, nodeOf, type SchemaNode, schemaAt} from "./json-schema.ts";
import {nearest} from "./nearest.ts";
import type {Partially} from "./study.ts";
import {unitSlip, writtenNumber} from "./unit-guess.ts";

type Issue = z.core.$ZodIssue;

/** The document as far as it can be trusted, and whole when it has the right form. */
export interface Structured<T> {
  readonly partial: Partially<T>;
  readonly whole: T | null;
}

/** Checks form and ranges field by field. What is faulty is left out of `partial`, so that further checks can go on. */
export function checkStructure<T>(raw: unknown, schema: z.ZodType<T>, findings: Findings): Structured<T> {
  const node = nodeOf(schema);
  const outcome = schema.safeParse(raw);
  if (outcome.success) {
    warnUnusual(outcome.data, [], node, findings);
    return {partial: outcome.data as Partially<T>, whole: outcome.data};
  }
  const issues = outcome.error.issues.flatMap(issue => flatten(issue, raw, []));
  for (const {issue, path} of issues)
    if (issue.code === "unrecognized_keys") reportUnknownKeys(issue.keys, path, {raw, node}, findings);
  for (const {issue, path} of issues) {
    if (issue.code === "unrecognized_keys") continue;
    if (valueAt(raw, path) === undefined && findings.faulty(path)) continue; // told at the misspelt key
    reportIssue(issue, path, valueAt(raw, path), node, findings);
  }
  const partial = without(
    raw,
    issues.flatMap(({issue, path}) =>
      issue.code === "unrecognized_keys" ? issue.keys.map(key => [...path, key]) : [path],
    ),
  ) as Partially<T>;
  warnUnusual(partial, [], node, findings);
  return {partial, whole: null};
}

/** Unions report every branch; keep the one that the value was meant for. */
function flatten(issue: Issue, raw: unknown, base: DocumentPath): {issue: Issue; path: DocumentPath}[] {
  const path = [...base, ...issue.path.map(key => (typeof key === "number" ? key : String(key)))];
  if (issue.code !== "invalid_union" || issue.errors.length === 0) return [{issue, path}];
  const meant = issue.errors.find(branch => branch.every(inner => inner.path.length > 0 || !isWrongKind(inner)));
  return meant ? meant.flatMap(inner => flatten(inner, raw, path)) : [{issue, path}];
}

const isWrongKind = (issue: Issue) => issue.code === "invalid_type" || issue.code === "invalid_value";

function reportUnknownKeys(
  keys: readonly string[],
  path: DocumentPath,
  {raw, node}: {readonly raw: unknown; readonly node: SchemaNode},
  findings: Findings,
): void {
  const valid = keysAt(path, node);
  const present = new Set(Object.keys((valueAt(raw, path) as object | undefined) ?? {}));
  const free = valid.filter(key => !present.has(key));
  for (const key of keys) {
    const meant = nearest(key, free) ?? nearest(key, valid);
    findings.fault([...path, key], {
      problem: "there is no such field here",
      found: `the key ${foundText(key)}`,
      accepted: valid.join(", "),
      suggestion: meant === null ? commaHint(key) : `did you mean ${meant}?`,
      ...(meant !== null && {covers: [...path, meant]}),
    });
  }
}

/** Within braces, {poisson: 0,2} is a 0 and a key 2. */
function commaHint(key: string): string | null {
  return /^\d+$/.test(key) ? "if this is the end of a number, write a decimal point instead of the comma" : null;
}

function reportIssue(issue: Issue, path: DocumentPath, value: unknown, root: SchemaNode, findings: Findings): void {
  const node = schemaAt(path, root);
  const accepted = acceptedText(node);
  if (value === undefined) {
    findings.fault(path, {problem: "this field is missing", accepted});
    return;
  }
  const ownWords = issue.code === "too_small" || issue.code === "too_big";
  const problem = ownWords
    ? issue.message
    : value === null || value === ""
      ? "the field is empty"
      : issue.code === "invalid_value" || (typeof value === "string" && node?.anyOf)
        ? "this is not one of the accepted values"
        : typeof value === "string" && isNumber(node)
          ? "this has to be a number"
          : "the value is of the wrong kind";
  findings.fault(path, {problem, accepted, suggestion: suggestionFor(value, node)});
}

const isNumber = (node: SchemaNode | undefined): boolean => node?.type === "number" || node?.type === "integer";

function suggestionFor(value: unknown, node: SchemaNode | undefined): string | null {
  if (typeof value === "number") return unitSlip(value, node);
  if (typeof value !== "string") return null;
  if (isNumber(node)) return writtenNumber(value, node?.["x-unit"]);
  const options = (node?.anyOf ?? (node ? [node] : [])).flatMap(branch => branch.enum ?? [branch.const]);
  const meant = nearest(
    value,
    options.filter(option => typeof option === "string"),
  );
  return meant === null ? null : `did you mean ${meant}?`;
}

/** A copy of plain data with some values taken out; lists keep their length. */
function without(raw: unknown, paths: readonly DocumentPath[]): unknown {
  if (paths.some(path => path.length === 0)) return {};
  const copy = structuredClone(raw);
  for (const path of paths) {
    const parent = valueAt(copy, path.slice(0, -1));
    if (typeof parent !== "object" || parent === null) continue;
    const key = path[path.length - 1];
    if (Array.isArray(parent)) parent[Number(key)] = undefined;
    else delete (parent as Record<string, unknown>)[String(key)];
  }
  return copy;
}

/** Warns of every number outside its usual range. */
function warnUnusual(value: unknown, path: DocumentPath, root: SchemaNode, findings: Findings): void {
  if (typeof value === "number") {
    const node = schemaAt(path, root);
    const typical = node?.["x-typical"];
    if (typical && (value < typical[0] || value > typical[1]))
      findings.warn(path, {
        problem: "this is an unusual value",
        found: String(value),
        accepted: acceptedText(node),
        suggestion: unitSlip(value, node),
      });
  } else if (Array.isArray(value)) {
    for (const [i, item] of value.entries()) warnUnusual(item, [...path, i], root, findings);
  } else if (typeof value === "object" && value !== null) {
    for (const [key, item] of Object.entries(value)) warnUnusual(item, [...path, key], root, findings);
  }
}
