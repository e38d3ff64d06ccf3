import { guideFacts } from '../../guide/topics.js';
import { terminal } from '../../problem/message.js';
import { type Command, Option } from 'commander';
import type { z } from 'zod';
import { type Wanted, type WantedKey, wantedBy } from '../../casefile/wanted.js';
import type { KeepingOptions } from '../../run/write-change.js';
import { animal } from '../../record/animal.js';
import { business } from '../../record/business.js';
import { farm, footbathPeriod, gaitRound } from '../../record/farm.js';
import { photo, visit } from '../../record/visit.js';

/** What was typed for a command whose flags bear the names of keys. */
export type Typed = KeepingOptions & Readonly<Record<string, unknown>>;

export type Keys = ReadonlyMap<string, WantedKey>;

function keysOfRecord(schema: z.ZodObject): Keys {
  const wanted = wantedBy(schema);
  return wanted.kind === 'group' ? wanted.keys : new Map<string, WantedKey>();
}

/** Adds a flag for each key, under the very name it has in a file. */
export function withKeyFlags(command: Command, keys: Keys): Command {
  for (const [key, { wanted }] of keys) {
    const form = wanted.kind === 'yes-no' ? '[yes]' : '<answer>';
    const example = guideFacts.examples[command.name()]?.[key];
    const what = described(wanted);
    const flag = new Option(
      `--${key} ${form}`,
      example === undefined ? what : terminal('flag.example', { what, example }),
    );
    command.addOption(flag.argParser((typed: string | true, before: unknown) => gathered(before, typed)));
  }
  return command;
}

/** A yes-or-no flag alone comes without a text. */
function gathered(before: unknown, typed: string | true): string[] {
  return [...(Array.isArray(before) ? (before as string[]) : []), typed === true ? 'yes' : typed];
}

/** What may follow a flag, in a few words. */
function described(wanted: Wanted): string {
  switch (wanted.kind) {
    case 'word':
      return wanted.words.join(' | ');
    case 'list':
      return wanted.of.kind === 'group'
        ? terminal('flag.each', { keys: keyList(wanted.of) })
        : terminal('flag.list', { one: described(wanted.of) });
    case 'named':
      return wanted.of.kind === 'group'
        ? terminal('flag.named', { keys: keyList(wanted.of) })
        : terminal('flag.counts');
    case 'group': {
      const [first] = [...wanted.keys.values()];
      return first?.wanted.kind === 'group'
        ? terminal('flag.groups', {
            groups: [...wanted.keys.keys()].join(' | '),
            keys: keyList(first.wanted),
          })
        : keyList(wanted);
    }
    case 'either':
      return described(wanted.forms.find(({ kind }) => kind !== 'list') ?? wanted.forms[0]!);
    case 'day':
      return terminal('flag.day');
    case 'yes-no':
      return terminal('flag.yes-no');
    case 'number':
      return wanted.whole ? terminal('flag.whole-number') : terminal('flag.number');
    case 'time':
      return terminal('flag.time');
    default:
      return terminal('flag.text');
  }
}

function keyList(group: Extract<Wanted, { kind: 'group' }>): string {
  return [...group.keys.keys()].join(', ');
}

const without = (schema: z.ZodObject, ...keys: string[]): Keys =>
  new Map([...keysOfRecord(schema)].filter(([key]) => !keys.includes(key)));

/** The keys of a visit, each of them a flag. `amended` is written by a correction alone. */
export const visitKeys = without(visit, 'amended');
/** The keys of an animal. */
export const animalKeys = without(animal, 'casefile', 'visits', 'amended');
/** What may first be met at a visit. */
export const declaredKeys: Keys = new Map(
  [...animalKeys].filter(([key]) => key === 'lesions' || key === 'marks'),
);
/** What a picture shows. */
export const pictureKeys = without(photo, 'file');
export const farmKeys = without(farm, 'footbath', 'gait-rounds', 'amended');
export const businessKeys = without(business);
export const roundKeys = without(gaitRound, 'amended');
export const footbathKeys = without(footbathPeriod, 'amended');
