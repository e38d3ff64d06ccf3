import { decimalDigits } from '../parse-yaml.js';
import { shown } from '../finding.js';
import type { Wanted } from '../wanted.js';
import type { Said } from './said.js';

type WantedNumber = Extract<Wanted, { kind: 'number' }>;

/** Why a value is not the number wanted. */
export function explainNumber(name: string, wanted: WantedNumber, value: unknown): Said {
  if (typeof value === 'number') return explainSize(name, wanted, value);
  return (typeof value === 'string' && explainWriting(name, value.trim())) || notANumber(name, value);
}

function explainSize(name: string, { whole, most }: WantedNumber, value: number): Said {
  const negative = value < 0;
  if (!negative && whole && !Number.isSafeInteger(value)) {
    return {
      id: 'value/not-whole',
      message: `${name} is ${shown(value)}, expected a whole number`,
      mend: 'write it without a fraction',
    };
  }
  const range = most === undefined ? '0 or more' : `0 to ${most} mm`;
  return {
    id: 'value/out-of-range',
    message: `${name} is ${shown(value)}, expected ${range}`,
    mend: negative
      ? 'nothing here lies below zero; look at the reading again'
      : 'look at the reading again; lengths are millimetres, without a unit',
  };
}

const withUnit = /^([-+]?\d+(?:[.,]\d+)?)\s*([a-zµ%°£$€"][^\d]*)$/i;
const otherForms =
  /^[-+]?(?:0[xob][\da-f_]+|\d+(?:\.\d*)?e[-+]?\d+|\.inf|\.\d+|\d+\.|\d[\d_]*(?:\.\d+)?|\+?\d+(?:\.\d+)?)$|^\.nan$/i;

function explainWriting(name: string, value: string): Said | undefined {
  if (/^-?\d+,\d+$/.test(value)) {
    return {
      id: 'value/decimal-comma',
      message: `${name} is ${shown(value)}, expected a decimal point`,
      mend: `write \`${value.replace(',', '.')}\``,
    };
  }
  const [, digits, unit] = withUnit.exec(value) ?? [];
  if (digits !== undefined && unit !== undefined && !/^e[-+]?$/i.test(unit)) {
    const millimetres = /^mm?$|^milli/i.test(unit);
    return {
      id: 'value/unit',
      message: `${name} is ${shown(value)}, expected the number alone`,
      mend: millimetres
        ? `write \`${digits.replace(',', '.')}\`; lengths are always millimetres`
        : 'write the number alone, without a unit; lengths are millimetres, weight is kilograms',
    };
  }
  if (decimalDigits.test(value)) {
    return {
      id: 'value/quoted-number',
      message: `${name} is the text "${value}", expected a number`,
      mend: `write \`${value}\` without quotes`,
    };
  }
  if (otherForms.test(value)) {
    return {
      id: 'value/number-form',
      message: `${name} is ${shown(value)}, expected decimal digits`,
      mend: 'write the number out in plain digits, such as `12` or `2.75`',
    };
  }
  return undefined;
}

function notANumber(name: string, value: unknown): Said {
  return {
    id: 'value/not-a-number',
    message: `${name} is ${shown(value)}, expected a number`,
    mend: 'write one number in plain digits; if it was not measured, take the key out and say why in `note`',
  };
}
