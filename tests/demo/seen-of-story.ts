import type { CaseRecord } from '../../src/record/practice.js';
import { animals, today, type Story } from './read-demo.js';

type Seen = Partial<Record<keyof Story['shows'], unknown>>;

/** What the demo in fact shows where a story is told, under the same keys. */
export function seenOfStory(story: Story): Seen {
  const worked = animals.get(`${story.farm}/${story.animal}`);
  if (!worked) throw new Error(`no animal ${story.farm}/${story.animal}`);
  return { ...seenOfAnimal(worked), ...seenOfLine(worked, story), ...seenOfRecord(worked.caseRecord, story) };
}

type Worked = typeof animals extends Map<string, infer W> ? W : never;

function seenOfAnimal({ standing, notices, withheld, due, missing }: Worked): Seen {
  const tasks = due.filter(({ what }) => what === 'farm-task' || what === 'farm-task-done');
  return {
    closed: standing.closed?.result,
    gait: standing.gait.standing,
    gaitOnBlock: standing.gait.lastOnBlock?.score,
    gaitOffBlock: standing.gait.lastOffBlock?.score,
    notices: notices.filter((notice) => notice.standing).map(({ rule }) => rule),
    due: due.filter((item) => item.standing !== 'done').map(({ what }) => what),
    overdue: due.filter((item) => item.standing === 'overdue').map(({ what }) => what),
    withheldOn: [withheld.milk, withheld.meat].some(({ outcome }) => outcome === 'withheld')
      ? today
      : undefined,
    tasksDone: tasks.filter((item) => item.standing === 'done').map(({ task }) => task),
    tasksOpen: tasks.filter((item) => item.standing !== 'done').map(({ task }) => task),
    nearCalving: due.some(({ nearCalving }) => nearCalving),
    gaps: missing.map(({ id }) => id),
  };
}

function seenOfLine({ growth, standing }: Worked, { lesion, mark }: Story): Seen {
  const gap = growth.lesions.find((one) => one.lesion === lesion);
  const readings = (gap ?? growth.marks.find((one) => one.mark === mark))?.readings ?? [];
  return {
    kinds: readings.map(({ kind }) => kind),
    tools: [...new Set(readings.map(({ tool }) => tool))],
    latestZ: readings.at(-1)?.z,
    ranUpMm: readings.find(({ kind }) => kind === 'ran-up')?.ranUpMm,
    wall: gap?.wall.source,
    ...(gap?.forecast.outcome === 'range'
      ? { forecast: gap.forecast.ifSoundHornFollows ? 'if-sound-horn-follows' : 'range' }
      : { why: gap?.forecast.why }),
    heldSince: gap?.heldNow?.since,
    standing: standing.lesions.find((one) => one.lesion === lesion)?.standing,
  };
}

function seenOfRecord({ animal }: CaseRecord, { lesion, mark }: Story): Seen {
  const declared = lesion === undefined ? undefined : animal.lesions[lesion];
  const found = animal.visits.flatMap((visit) =>
    lesion && visit.found?.[lesion] ? [visit.found[lesion]] : [],
  );
  const blocks = animal.visits.flatMap((visit) => visit.blocks ?? []);
  const lastDried = animal['dried-off']?.findLast((day) => day <= today);
  return {
    foot: declared?.foot,
    claw: declared?.claw,
    againOf: declared?.['again-of'],
    stages: found.map(({ stage }) => stage),
    groove: mark !== undefined && animal.marks?.[mark]?.['groove-from'] !== undefined,
    calvings: animal.calvings?.length,
    dryOn: lastDried && !animal.calvings?.some((day) => day > lastDried && day <= today) ? today : undefined,
    earlier: animal.earlier?.[0]?.animal,
    blockEvents: blocks.map(({ event }) => event),
    carryingClaw: blocks.findLast(({ event }) => event === 'removed')?.['carrying-claw'],
    vetAnswered: animal.visits.flatMap((visit) => (visit['vet-answer'] ? [visit['vet-answer'].to] : [])),
  };
}
