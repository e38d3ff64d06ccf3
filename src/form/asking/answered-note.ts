import type { NoteQuestion, NoteReading } from '../../note/note-reading.js';
import { readableText } from '../../problem/format-problem.js';
import { terminal } from '../../problem/message.js';
import type { Dialogue } from '../../run/dialogue.js';
import { isBack } from './ask-question.js';

/** Answers that are no words to put in the question's place. */
const otherwise = ' otherwise';
const keep = ' keep';
const drop = ' drop';
const without = ' without';
const back = ' back';

/**
 * Asks what a note leaves open, one thing after the other, and reads the note again with each answer put in its place.
 *
 * An answer is words in the note, as the writer could have written them: nothing is taken in that a note cannot say.
 * Always among the choices: the words kept as they are, left out, or the question before. The note on disk is not
 * changed. An animal that is left out stays a question.
 */
export async function answeredNote(
  text: string,
  read: (text: string) => NoteReading,
  dialogue: Dialogue,
): Promise<{ readonly text: string; readonly reading: NoteReading }> {
  const before: string[] = [];
  let now = text;
  let reading = read(now);
  const left = new Set<string>();
  for (;;) {
    const open = [...reading.questions, ...reading.animals.flatMap(({ questions }) => questions)];
    const question = open.find((one) => !left.has(keyOf(one)));
    if (!question) return { text: now, reading };
    const answer = await answerTo(question, before.length > 0, dialogue);
    if (answer === undefined) {
      left.add(keyOf(question));
      continue;
    }
    if (answer === 'back') now = before.pop() ?? now;
    else {
      before.push(now);
      const { from, to } = answer.at;
      now = now.slice(0, from) + answer.text + now.slice(to);
    }
    reading = read(now);
  }
}

/** The same words asked about in the same way are the same question, wherever an answer has moved them. */
function keyOf({ id, text, ask }: NoteQuestion): string {
  return `${id}\n${text}\n${ask}`;
}

interface Answer {
  readonly text: string;
  readonly at: { readonly from: number; readonly to: number };
}

async function answerTo(
  question: NoteQuestion,
  canGoBack: boolean,
  dialogue: Dialogue,
): Promise<Answer | 'back' | undefined> {
  const { line, ask, from, to, replace } = question;
  const about = question.text.trim();
  const message = terminal(about === '' ? 'take.ask' : 'take.ask-about', { line, about, ask });
  // What is asked of the whole visit has no words that could be kept without it.
  const ofWords = to > from && !/^(?:no|day)-/.test(question.id);
  const chosen = await dialogue.choose(readableText(message), [
    ...question.choices.map(({ label, text }) => ({ label, value: text })),
    ...(ofWords
      ? [
          { label: terminal('take.keep-words'), value: keep },
          { label: terminal('take.leave-words-out'), value: drop },
        ]
      : []),
    { label: terminal('take.write-otherwise'), value: otherwise },
    { label: terminal('take.leave-out'), value: without },
    ...(canGoBack ? [{ label: terminal('take.back'), value: back }] : []),
  ]);
  if (chosen === undefined || chosen === without) return undefined;
  if (chosen === back) return 'back';
  if (chosen === keep) return { text: `"${question.text.replaceAll(/["\\\n]/g, ' ')}"`, at: { from, to } };
  if (chosen === drop) return { text: '', at: { from, to } };
  if (chosen !== otherwise) return { text: chosen, at: replace };
  const written = await dialogue.line(question.mend, (typed) =>
    isBack(typed) && !canGoBack ? terminal('take.first') : undefined,
  );
  if (written !== undefined && isBack(written)) return 'back';
  return written === undefined || written.trim() === '' ? undefined : { text: written, at: replace };
}
