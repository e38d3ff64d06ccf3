import { spawnSync } from 'node:child_process';
import type { eventsIn } from './events-in.js';

const pythons = ['/usr/bin/python3', 'python3', 'python'];

/** Prints each entry of the calendar on standard input, as Python's icalendar reads it; its complaints too. */
const script = `
import json, sys
import icalendar
calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
events = []
for event in calendar.walk('VEVENT'):
    if event.errors: raise ValueError(event.errors)
    text = lambda name: str(event[name])
    events.append(dict(uid=text('UID'), sequence=int(event['SEQUENCE']), day=str(event['DTSTART'].dt),
        end=str(event['DTEND'].dt), summary=text('SUMMARY'), description=text('DESCRIPTION'),
        place=text('LOCATION'), status=text('STATUS')))
events.sort(key=lambda e: (e['day'], e['summary']))
json.dump(dict(errors=[str(e) for e in calendar.errors], method='METHOD' in calendar, events=events), sys.stdout)
`;

/** The first Python on this computer that has icalendar; undefined where none has. */
export function pythonWithIcalendar(): string | undefined {
  return pythons.find((python) => spawnSync(python, ['-c', 'import icalendar']).status === 0);
}

/** The entries of a calendar as Python's icalendar takes them, in the shape of `eventsIn`. */
export function readByPython(
  python: string,
  ics: string,
): { errors: string[]; method: boolean; events: ReturnType<typeof eventsIn> } {
  const run = spawnSync(python, ['-c', script], { input: ics, env: { ...process.env, PYTHONUTF8: '1' } });
  if (run.status !== 0) throw new Error(run.stderr.toString());
  return JSON.parse(run.stdout.toString()) as ReturnType<typeof readByPython>;
}
