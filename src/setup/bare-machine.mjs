// Runs the tests where nothing is installed: a minimal Debian with Node.js alone, as an ordinary user, in a folder whose
// name has a space and an umlaut. Skipped, with the reason, where such a machine cannot be made.
//   npm run test:bare [-- arguments of npm test]
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const base = '/var/tmp/growdown-bare';
const machine = join(base, 'debian');
const home = join(machine, 'home/user/lame cows ü');
const user = 1000;

if (process.platform !== 'linux') skip('it needs Linux');
if (process.getuid() !== 0) skip('it needs root, to make a system and to step into it');
if (spawnSync('debootstrap', ['--version']).error) skip('it needs debootstrap (apt install debootstrap)');

if (!existsSync(join(machine, 'bin/bash'))) {
  mkdirSync(base, { recursive: true });
  console.log('Setting up a minimal Debian …');
  const made = spawnSync('debootstrap', ['--variant=minbase', 'bookworm', machine], { encoding: 'utf8' });
  if (made.status !== 0) {
    rmSync(machine, { recursive: true, force: true });
    skip(`the system could not be made: ${made.stdout.trim().split('\n').at(-1)}`);
  }
}

// This Node.js and its npm, the project as it was last committed, and the packages its lock file names.
cpSync(process.execPath, join(machine, 'usr/bin/node'));
const npm = join(dirname(process.env.npm_execpath ?? ''), '..');
cpSync(npm, join(machine, 'usr/lib/node_modules/npm'), { recursive: true, dereference: true });
rmSync(join(machine, 'usr/bin/npm'), { force: true });
symlinkSync('../lib/node_modules/npm/bin/npm-cli.js', join(machine, 'usr/bin/npm'));
writeFileSync(join(machine, 'etc/hosts'), '127.0.0.1 localhost\n');
const users = join(machine, 'etc/passwd');
if (!readFileSync(users, 'utf8').includes('\nuser:'))
  writeFileSync(users, `user:x:${user}:${user}::/home/user:/bin/bash\n`, { flag: 'a' });
rmSync(join(machine, 'home/user'), { recursive: true, force: true });
mkdirSync(join(machine, 'home/user'), { recursive: true });
run('git', ['clone', '--quiet', process.cwd(), home]);
run(process.execPath, ['src/setup/run.mjs', 'build'], { cwd: home });
run('chown', ['-R', `${user}:${user}`, join(machine, 'home/user')]);

const mounts = ['proc', 'dev'].map((name) => join(machine, name));
// What a run that was ended by force left.
for (const at of mounts) spawnSync('umount', [at], { stdio: 'ignore' });
let tests;
try {
  for (const at of mounts) run('mount', ['--bind', at.slice(machine.length), at]);
  const words = process.argv.slice(2).map((word) => `'${word.replaceAll("'", String.raw`'\''`)}'`);
  const command = ['npm test', ...(words.length > 0 ? ['--', ...words] : [])].join(' ');
  const inside = [`--userspec=${user}:${user}`, machine, 'bash', '-c', `cd ~/'lame cows ü' && ${command}`];
  tests = spawnSync('chroot', inside, {
    stdio: 'inherit',
    env: { PATH: '/usr/sbin:/usr/bin:/sbin:/bin', HOME: '/home/user', LANG: 'C.UTF-8', CI: 'true' },
  });
} finally {
  for (const at of mounts) spawnSync('umount', [at]);
}
process.exit(tests?.status ?? 1);

function run(program, words, options = {}) {
  const done = spawnSync(program, words, { stdio: ['ignore', 'ignore', 'inherit'], ...options });
  if (done.status !== 0) throw new Error(`${program} ${words.join(' ')} failed`);
}

function skip(why) {
  console.log(`test:bare: skipped: ${why}`);
  process.exit(0);
}
