// A program of its own that ends itself, as a kill or a power cut would, at the n-th call that changes the disk:
//   node killed-at.mjs N WORDS…    0: it is not killed, and says how many calls it made
import { nodeCalls, thisMachine } from '../../dist/cli/node-disk.js';
import { nodeEffects } from '../../dist/cli/node-effects.js';
import { runCommand } from '../../dist/cli/run-command.js';

const [at = '0', ...words] = process.argv.slice(2);
let count = 0;
const stops = () => {
  count += 1;
  return count === Number(at);
};
const die = () => process.kill(process.pid, 'SIGKILL');
const calls = Object.fromEntries(
  Object.entries(nodeCalls).map(([name, call]) => [
    name,
    (...args) => {
      if (name === 'close' || !stops()) return call(...args);
      if (name === 'write')
        call(args[0], args[1].subarray(0, args[2] + (args[1].length - args[2]) / 2), args[2]);
      die();
      // The signal comes when it comes; nothing more is done meanwhile.
      for (;;);
    },
  ]),
);
const code = await runCommand(words, nodeEffects({ ...thisMachine, calls }));
if (at === '0') process.stderr.write(`calls: ${count}\n`);
process.exitCode = code;
