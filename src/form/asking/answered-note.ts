import type { NoteReading, NoteQuestion } from '../../note/note-reading.js';
import { readableText } from '../../problem/format-problem.js';
import { terminal } from '../../problem/message.js';
import type { Dialogue } from '../../run/dialogue.js';

const otherwise = ' otherwise';
const leaveOut = ' leave out';

/**
 * Asks what a note leaves open, one thing after the other, and reads the note again with each answer put in its place.
 *
 * An answer is words in the note, as the writer could have written them: nothing is taken in that a note cannot say.
 * The note on disk is not changed. What is left out stays a question.
 */
export async function answeredNote(
  text: string,
  read: (text: string) => NoteReading,
  dialogue: Dialogue,
): Promise<NoteReading> {
  let now = text;
  let reading = read(now);
  const left = new Set<string>();
  for (;;) {
    const open = [...reading.questions, ...reading.animals.flatMap(({ questions }) => questions)];
    const question = open.find((one) => !left.has(keyOf(one)));
    if (!question) return reading;
    const answer = await answerTo(question, dialogue);
    if (answer === undefined) {
      left.add(keyOf(question));
      continue;
    }
    const { from, to } = question.replace;
    now = now.slice(0, from) + answer + now.slice(to);
    reading = read(now);
  }
}

/** The same words asked about in the same way are the same question, wherever an answer has moved them. */
function keyOf({ id, text, ask }: NoteQuestion): string {
  return `${id}\n${text}\n${ask}`;
}

async function answerTo(question: NoteQuestion, dialogue: Dialogue): Promise<string | undefined> {
  const { line, ask } = question;
  const about = question.text.trim();
  const message = terminal(about === '' ? 'take.ask' : 'take.ask-about', { line, about, ask });
  const chosen = await dialogue.choose(readableText(message), [
    ...question.choices.map(({ label, text }) => ({ label, value: text })),
    { label: terminal('take.write-otherwise'), value: otherwise },
    { label: terminal('take.leave-out'), value: leaveOut },
  ]);
  if (chosen === undefined || chosen === leaveOut) return undefined;
  if (chosen !== otherwise) return chosen;
  const written = await dialogue.line(question.mend, () => undefined);
  return written?.trim() === '' ? undefined : written;
}
