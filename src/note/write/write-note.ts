import type { Animal } from '../../record/animal.js';
import { aboutWords, type Foot, type PainRelief } from '../../record/words.js';
import type { NoteVisit } from '../note-reading.js';
import { quoted } from './quoted.js';
import { writeBlock, writeFoot, writeProduct, writeWrap } from './write-fixtures.js';
import { inWords, writeFound } from './write-found.js';

/** Which animal a visit is of: the slugs of her farm and file, and her record, which tells lesions from marks. */
export interface NoteOf {
  readonly farm: string;
  readonly slug: string;
  readonly animal: Pick<Animal, 'marks'>;
}

const painRelief: Readonly<Record<PainRelief, string>> = {
  given: 'pain relief given',
  asked: 'pain relief asked',
  advised: 'pain relief advised',
  'farm declined': 'farm declined pain relief',
  'vet says none': 'pain relief vet says none',
  'not lame': 'pain relief not lame',
};

/**
 * A visit in the words of the grammar, so that reading it gives the same visit back: one statement a line, free text in
 * quotes. A lesion, a foot or a block is one line each.
 *
 * Photos are not told: a note carries none. Empty lists and groups say nothing and are not told either.
 *
 * Checked: tests/note/written-and-read.test.ts
 * @example writeNote({ farm: 'quernholt', slug: '2086', animal: {} }, { date: '2026-03-03', by: 'Orla Venn', kind: 'recheck' }) // → 'farm quernholt\ndate 2026-03-03\nanimal 2086.md\nby "Orla Venn"\nkind recheck\n'
 */
export function writeNote({ farm, slug, animal }: NoteOf, visit: NoteVisit): string {
  const lines = inWords<NoteVisit>(
    {
      date: (day) => `farm ${farm}\ndate ${day}\nanimal ${slug}.md`,
      at: (time) => `at ${time}`,
      by: (name) => `by ${quoted(name)}`,
      kind: (kind) => `kind ${kind}`,
      why: (text) => `why ${quoted(text)}`,
      gait: (score) => `score ${score}`,
      'gait-by': (name) => `scored by ${quoted(name)}`,
      'on-block': (on) => `walks ${on ? 'on' : 'off'} the block`,
      condition: (score) => `condition ${score}`,
      weight: (kg) => `weight ${kg} kg`,
      signs: (signs) => signs.join(', '),
      feet: (feet) =>
        eachOnALine(Object.entries(feet), ([foot, finding]) => finding && writeFoot(foot as Foot, finding)),
      found: (found) =>
        eachOnALine(Object.entries(found), ([name, one]) =>
          writeFound(name, Object.hasOwn(animal.marks ?? {}, name), one, isLooking(visit)),
        ),
      trimmed: (feet) => (feet.length === 0 ? '' : `trimmed ${feet.join(' ')}`),
      'cut-back': (names) =>
        names.length === 0 ? '' : `cut back: ${names.map((one) => `lesion ${one}`).join(', ')}`,
      blocks: (blocks) => eachOnALine(blocks, writeBlock),
      wraps: (wraps) => eachOnALine(wraps, writeWrap),
      products: (products) => eachOnALine(products, writeProduct),
      'pain-relief': (word) => painRelief[word],
      photos: () => '',
      vet: ({ asked, about, why }) =>
        `vet asked on ${asked}${aboutInWords(animal, about)} why ${quoted(why)}`,
      'vet-answer': ({ to, by, about, closes, treated, reply, does = [] }) =>
        [
          [
            `vet answered by ${quoted(by)} to ${to}${aboutInWords(animal, about)}`,
            ...(closes === undefined ? [] : [closes ? 'closes' : 'does not close']),
            ...(treated === undefined ? [] : [treated ? 'medicine given' : 'no medicine given']),
            `reply ${quoted(reply)}`,
          ].join(' '),
          ...(does.length === 0
            ? []
            : [`vet does: ${does.map(({ what, on }) => `${what} on ${on}`).join(', ')}`]),
        ].join('\n'),
      'ask-farm': (tasks) =>
        tasks.length === 0 ? '' : `ask farm: ${tasks.map(({ what, by }) => `${what} by ${by}`).join(', ')}`,
      'farm-did': (tasks) =>
        tasks.length === 0 ? '' : `farm did: ${tasks.map(({ what, on }) => `${what} on ${on}`).join(', ')}`,
      'tools-disinfected': (yes) => (yes ? 'tools disinfected' : 'tools not disinfected'),
      'saw-expected': (yes) => (yes ? 'saw expected' : 'did not see expected'),
      recheck: (day) => `look again on ${day}`,
      note: (text) => `note ${quoted(text)}`,
      amended: (all) =>
        eachOnALine(all, ({ date, by, why }) => `amended ${date} by ${quoted(by)} why ${quoted(why)}`),
    },
    visit,
  );
  return `${lines.join('\n')}\n`;
}

/** A lesion or mark is called one, since `a` is a word too. */
function aboutInWords({ marks = {} }: NoteOf['animal'], about: readonly string[] = []): string {
  const said = about.map((item) =>
    (aboutWords as readonly string[]).includes(item)
      ? item
      : `${Object.hasOwn(marks, item) ? 'mark' : 'lesion'} ${item}`,
  );
  return said.length === 0 ? '' : ` about ${said.join(', ')}`;
}

/** Whether a note of this visit is asked how each lesion stands. */
function isLooking({ kind }: NoteVisit): boolean {
  return kind !== 'report' && kind !== 'missed';
}

function eachOnALine<T>(list: readonly T[], line: (one: T) => string | undefined): string {
  return list.flatMap((one) => line(one) ?? []).join('\n');
}
