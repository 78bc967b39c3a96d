/**
 * Whether two plain values say the same: objects by their fields, a field that is undefined being as good as none; lists and
 * typed arrays by their elements in order. NaN is like NaN, 0 like −0.
 */
export function sameContent(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (typeof one === "number" && typeof other === "number") return Number.isNaN(one) && Number.isNaN(other);
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) return false;
  if (Object.getPrototypeOf(one) !== Object.getPrototypeOf(other)) return false;
  if (Array.isArray(one) || ArrayBuffer.isView(one)) return sameElements(one as Elements, other as Elements);
  return sameFields(one as Fields, other as Fields);
}

type Elements = ArrayLike<unknown>;
type Fields = Readonly<Record<string, unknown>>;

function sameElements(one: Elements, other: Elements): boolean {
  if (one.length !== other.length) return false;
  for (let k = 0; k < one.length; k++) if (!sameContent(one[k], other[k])) return false;
  return true;
}

function sameFields(one: Fields, other: Fields): boolean {
  for (const key in one) if (!sameContent(one[key], other[key])) return false;
  for (const key in other) if (one[key] === undefined && other[key] !== undefined) return false;
  return true;
}
