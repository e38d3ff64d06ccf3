import { messageOf } from '../../problem/message.js';
import type { Message } from '../../problem/problem.js';
import { decimalDigits } from '../plain-scalar.js';
import { shown } from '../finding.js';
import type { Wanted } from '../wanted.js';

type WantedNumber = Extract<Wanted, { kind: 'number' }>;

/** Why a value is not the number wanted. */
export function explainNumber(name: string, wanted: WantedNumber, value: unknown): Message {
  const found = shown(value);
  if (typeof value === 'number') return explainSize(name, wanted, value);
  return (
    (typeof value === 'string' && explainWriting(name, value.trim())) ||
    messageOf('value/not-a-number', { name, found })
  );
}

function explainSize(name: string, { whole, most }: WantedNumber, value: number): Message {
  const found = shown(value);
  if (value >= 0 && whole && !Number.isSafeInteger(value))
    return messageOf('value/not-whole', { name, found });
  if (most === undefined)
    return messageOf('value/out-of-range', { name, found }, value < 0 ? 'negative' : undefined);
  return messageOf('value/out-of-range', { name, found, most }, value < 0 ? 'negative-to-most' : 'to-most');
}

const withUnit = /^([-+]?\d+(?:[.,]\d+)?)\s*([a-zµ%°£$€"][^\d]*)$/i;
const otherForms =
  /^[-+]?(?:0[xob][\da-f_]+|\d+(?:\.\d*)?e[-+]?\d+|\.inf|\.\d+|\d+\.|\d[\d_]*(?:\.\d+)?|\+?\d+(?:\.\d+)?)$|^\.nan$/i;

function explainWriting(name: string, value: string): Message | undefined {
  const found = shown(value);
  if (/^-?\d+,\d+$/.test(value))
    return messageOf('value/decimal-comma', { name, found, meant: value.replace(',', '.') });
  const [, digits, unit] = withUnit.exec(value) ?? [];
  if (digits !== undefined && unit !== undefined && !/^e[-+]?$/i.test(unit)) {
    const isMillimetres = /^mm?$|^milli/i.test(unit);
    const meant = digits.replace(',', '.');
    return messageOf('value/unit', { name, found, meant }, isMillimetres ? 'millimetres' : undefined);
  }
  if (decimalDigits.test(value)) return messageOf('value/quoted-number', { name, value });
  return otherForms.test(value) ? messageOf('value/number-form', { name, found }) : undefined;
}
