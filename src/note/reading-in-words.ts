import type { AnimalReading, NoteReading, Piece, Question } from './note-reading.js';
import { readableText } from '../problem/readable-text.js';

/** What was understood of a note and what was not, line by line: the words of the note, then what they were taken for. */
export function headingInWords({ heading, passedOver, questions }: NoteReading): string {
  const passed = passedOver.length === 0 ? '' : `mail's own lines passed over: ${passedOver.join(', ')}\n`;
  return `${passed}${heading.map((piece) => pieceInWords(piece, 'belongs to no animal and is not kept')).join('')}${questions.map(questionInWords).join('')}`;
}

export function animalInWords({ farm, animal, called, date, pieces, questions }: AnimalReading): string {
  const who = animal === undefined ? readableText(called) : `${farm}/${animal}`;
  const head = `\n${who}${date === undefined ? '' : `, ${date}`}\n`;
  const lines = pieces.map((piece) => pieceInWords(piece, 'not understood: kept in the note of the visit'));
  return `${head}${lines.join('')}${questions.map(questionInWords).join('')}`;
}

function pieceInWords({ line, text, as }: Piece, not: string): string {
  const said = text === '' ? '(not said)' : `“${oneLine(text)}”`;
  return `  line ${line}: ${said} ${as === undefined ? '✗' : '→'} ${as === undefined ? not : oneLine(as)}\n`;
}

export function questionInWords({ line, text, ask, mend, choices }: Question): string {
  const about = text.trim() === '' ? '' : `“${oneLine(text)}”: `;
  const ways =
    choices.length === 0 ? '' : `\n    one of: ${choices.map(({ label }) => oneLine(label)).join(' · ')}`;
  return `  line ${line}: ? ${about}${oneLine(ask)}${ways}\n    to be certain: ${oneLine(mend)}\n`;
}

function oneLine(text: string): string {
  return readableText(text.replaceAll(/\s+/g, ' ').trim());
}
