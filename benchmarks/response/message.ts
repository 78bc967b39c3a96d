/** Values as text: JSON with doubles in typed arrays and with infinity. */

export function encode(value: unknown): string {
  return JSON.stringify(value, (_, own) => {
    if (own instanceof Float64Array) return {doubles: [...own]};
    return own === Infinity ? {infinite: true} : own;
  });
}

export function decode<Value>(text: string): Value {
  return JSON.parse(text, (_, own) => {
    if (Array.isArray(own?.doubles)) return Float64Array.from(own.doubles);
    return own?.infinite === true ? Infinity : own;
  }) as Value;
}
