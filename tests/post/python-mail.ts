import { spawnSync } from 'node:child_process';

/** What Python's `email` package, a reader of its own making, finds in a message. */
export interface ReadByPython {
  readonly defects: readonly string[];
  readonly headers: readonly (readonly [string, string])[];
  readonly parts: readonly {
    readonly type: string;
    readonly name: string | null;
    readonly disposition: string | null;
    readonly base64: string;
  }[];
}

const program = `
import sys, json, base64
from email import policy
from email.parser import BytesParser
message = BytesParser(policy=policy.default).parsebytes(sys.stdin.buffer.read())
defects, parts = [], []
for part in message.walk():
    defects += [repr(d) for d in part.defects]
    for name, value in part.items():
        defects += [name + ': ' + repr(d) for d in getattr(value, 'defects', [])]
    if not part.is_multipart():
        parts.append({'type': part.get_content_type(), 'name': part.get_filename(), 'disposition': part.get_content_disposition(),
            'base64': base64.b64encode(part.get_payload(decode=True)).decode()})
print(json.dumps({'defects': defects, 'headers': [[k, str(v)] for k, v in message.items()], 'parts': parts}))
`;

/** Whether a Python 3 is on the PATH: without one, these tests say so and read by postal-mime alone. */
export const isPythonThere = spawnSync('python3', ['-c', 'import email']).status === 0;
if (!isPythonThere)
  console.warn(
    'No python3 on the PATH: messages are read by postal-mime alone, not by Python’s email package too.',
  );

export function readByPython(bytes: Uint8Array): ReadByPython {
  const run = spawnSync('python3', ['-c', program], { input: bytes, maxBuffer: 64e6 });
  if (run.status !== 0) throw new Error(run.stderr.toString());
  return JSON.parse(run.stdout.toString()) as ReadByPython;
}
