/**
 * A number with every digit written out, as the case format has numbers; it knows no exponents.
 *
 * @example inDigits(1e-7) // → '0.0000001'
 */
export function inDigits(value: number): string {
  const written = String(value);
  const [, sign = '', whole = '', part = '', power] = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(written) ?? [];
  if (power === undefined) return written;
  const digits = whole + part;
  const before = 1 + Number(power);
  return before > 0 ? sign + digits.padEnd(before, '0') : `${sign}0.${'0'.repeat(-before)}${digits}`;
}
