#!/usr/bin/env node
import { nodeEffects } from './node-effects.js';
import { runCommand } from './run-command.js';

// A reader that has seen enough (`growdown check | head`) closes the pipe: that is no fault.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
    throw error;
  });

process.exitCode = await runCommand(process.argv.slice(2), nodeEffects());
