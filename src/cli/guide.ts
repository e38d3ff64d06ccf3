import { join } from 'node:path';
import { type Command, Option } from 'commander';
import { guideFacts, topicNamed, topicNames } from '../guide/topics.js';
import { nearestWord } from '../casefile/nearest-word.js';
import { terminal } from '../problem/message.js';
import { type Paper, papers } from '../record/words.js';
import { wrapped } from '../run/dialogue.js';
import type { Effects } from '../run/effects.js';
import { exitCode, type ExitCode, folderOf, writeResult, WrongUse } from '../run/exit-code.js';

/** Writes the guide, to read in a browser or to print. */
async function guide(options: { out: string; paper: Paper }, effects: Effects): Promise<ExitCode> {
  const { renderGuide } = await import('../guide/compose-guide.js');
  writeResult(join(folderOf(effects, options.out), 'guide.html'), renderGuide(options.paper), effects);
  effects.print(`${join(options.out, 'guide.html')}\n`);
  return exitCode.well;
}

/** The guide, and its topics in the terminal; every command in its group. */
export function addHelpCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  program
    .command('guide')
    .description(terminal('help.guide.about'))
    .option('--out <folder>', terminal('help.guide.out'), './books')
    .addOption(new Option('--paper <size>', terminal('help.guide.paper')).choices(papers).default('A4'))
    .action(async (options: { out: string; paper: Paper }) => ended(await guide(options, effects)));
  program
    .command('help [topic]')
    .description(terminal('help.help.about'))
    .action(async (asked: string | undefined) => ended(await help(asked, program, effects)));
  groupHelp(program);
}

/** The commands in groups, "start here" first; behind each command's help the topic that says more, behind all the topics. */
function groupHelp(program: Command): void {
  const order = Object.values(guideFacts.commands).flat();
  for (const [group, names] of Object.entries(guideFacts.commands))
    for (const command of program.commands.filter((one) => names.includes(one.name())))
      command.helpGroup(terminal(`help.group.${group}`));
  (program.commands as Command[]).sort((a, b) => order.indexOf(a.name()) - order.indexOf(b.name()));
  for (const command of program.commands) {
    const topic = guideFacts.more[command.name()];
    if (topic !== undefined) command.addHelpText('after', `\n${terminal('help.any.more', { topic })}`);
  }
  program.addHelpText('after', topicList);
}

function topicList(): string {
  const wide = topicNames.reduce((most, { length }) => Math.max(most, length), 0);
  const lines = topicNames.map((name) => `  ${name.padEnd(wide)}  ${topicNamed(name)!.title}`);
  return `\n${terminal('help.growdown.topics')}\n${lines.join('\n')}`;
}

/** `growdown help`: the text of a topic, how a command is used, or, of nothing named, what there is. */
async function help(asked: string | undefined, program: Command, effects: Effects): Promise<ExitCode> {
  if (asked === undefined) program.help();
  program.commands.find((one) => one.name() === asked)?.help();
  const topic = topicNamed(asked);
  if (!topic) {
    const known = [...topicNames, ...program.commands.map((one) => one.name())];
    const near = nearestWord(asked, known);
    throw new WrongUse(
      near === undefined
        ? terminal('help.help.unknown', { asked })
        : terminal('help.help.near', { asked, near }),
    );
  }
  const { plainTopic } = await import('../guide/plain-topic.js');
  const columns = Math.min(effects.terminalWidth ?? 80, 100);
  effects.print(plainTopic(topic, (text) => wrapped(text, columns)));
  return exitCode.well;
}
