/**
 * A number as it is typed: a comma may stand for the point, but not where it may part thousands. Text that is no number, or
 * may be two, stays text: whoever takes it says so.
 */
export function typed(text: string): number | string {
  const own = text.trim().replaceAll("−", "-");
  if (/^[+-]?[1-9]\d{0,2}(?:,\d{3})+$/.test(own)) return text.trim(); // 5,000: five, or five thousand?
  const plain = own.replace(/^([+-]?\d+),(\d+)$/, "$1.$2");
  const value = Number(plain);
  return plain !== "" && Number.isFinite(value) ? value : text.trim();
}
