import type { NoteContext } from '../../src/note/note-reading.js';
import type { CalendarDay } from '../../src/record/calendar-day.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';

/** Two invented farms for reading notes against. What matters of each animal is said beside her. */
export const files: Readonly<Record<string, string>> = {
  'cases/business.md': `---
trimmer: Orla Venn
people: [{ name: Orla Venn }, { name: Tam Brickles }]
---
`,
  'cases/quernholt/farm.md': `---
farm: Quernholt
contact: { name: Nan Thistlewrack }
vet: { name: P. Wexmarrow }
gait-scale: uk-0-3
condition-scale: uk-1-5
---
`,
  // Gaps at LH outer and, under a name that is also a word of the grammar, RF outer; an ulcer at LH outer; skin RH; a notch.
  // A block is on LH inner since 19 May.
  'cases/quernholt/2086.md': `---
casefile: 1
animal: "2086"
tag: UK 000123 402086
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
  b: { code: SU, foot: LH, claw: outer, site: sole-heel junction }
  c: { code: DD, foot: RH, site: skin behind heels }
  wall: { code: HFV, foot: RF, claw: outer, site: dorsal wall, line: dorsal }
marks:
  m1: { foot: LH, claw: inner, line: dorsal }
visits:
  - date: 2023-05-19
    by: Orla Venn
    kind: first
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape }
      b: { state: open, length: 18, width: 14, tool: ruler }
      c: { stage: M2 }
      wall: { state: open, top: 30, top-found: seen, wall: 77, tool: tape }
      m1: { distance: 12, tool: calliper }
    blocks: [{ foot: LH, claw: inner, event: fitted, material: wood }]
---
`,
  // One gap at LH outer; a block is on LH inner since 19 May.
  'cases/quernholt/2117.md': `---
casefile: 1
animal: "2117"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - date: 2026-05-19
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape }
    blocks: [{ foot: LH, claw: inner, event: fitted, material: wood }]
    vet: { asked: 2026-05-19, why: "heat above the foot" }
---
`,
  // An ulcer at RH outer and skin at both hinds; a wrap is on RH.
  'cases/quernholt/2133.md': `---
casefile: 1
animal: "2133"
lesions:
  a: { code: SU, foot: RH, claw: outer, site: sole-heel junction }
  b: { code: DD, foot: RH, site: skin behind heels }
  c: { code: DD, foot: LH, site: skin behind heels }
visits:
  - date: 2026-05-19
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, length: 18, width: 14, tool: ruler }
      b: { stage: M2 }
      c: { stage: M2 }
    wraps: [{ foot: RH, event: fitted }]
---
`,
  // A gap and a fissure on one claw.
  'cases/quernholt/2155.md': `---
casefile: 1
animal: "2155"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
  b: { code: HFV, foot: LH, claw: outer, site: dorsal wall, line: dorsal }
marks:
  m1: { foot: LH, claw: inner, line: dorsal }
visits:
  - date: 2026-05-19
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: covered, top: 17, top-found: seen, wall: 43, tool: tape }
      b: { state: open, top: 30, top-found: seen, wall: 77, tool: tape }
      m1: { distance: 12, tool: calliper }
---
`,
  // A gap LH outer, skin RH, a gap RF outer, a notch; a block is on LH inner, a wrap on RH, the vet asked twice.
  'cases/quernholt/2200.md': `---
casefile: 1
animal: "2200"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
  b: { code: WL, foot: RF, claw: outer, site: white line rear, line: heel }
  c: { code: DD, foot: RH, site: skin behind heels }
marks:
  m1: { foot: LH, claw: inner, line: dorsal }
visits:
  - date: 2026-05-19
    by: Orla Venn
    kind: first
    found:
      a: { state: covered, top: 17, top-found: seen, wall: 43, tool: tape }
      b: { state: open, top: 17, top-found: seen, wall: 43, tool: tape }
      c: { stage: M2 }
      m1: { distance: 12, tool: calliper }
    blocks: [{ foot: LH, claw: inner, event: fitted, material: wood }]
    wraps: [{ foot: RH, event: fitted }]
    vet: { asked: 2026-05-19, why: "heat above the foot" }
---
`,
  'cases/harrowmere/farm.md': `---
farm: Harrowmere
language: en-US
contact: { name: Ada Millstrop }
gait-scale: sprecher-1-5
condition-scale: us-1-5
---
`,
  // A number that Quernholt has too.
  'cases/harrowmere/2117.md': `---
casefile: 1
animal: "2117"
lesions:
  a: { code: WL, foot: RF, claw: inner, site: white line fore, line: abaxial }
visits:
  - date: 2026-05-19
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, top: 22, top-found: seen, wall: 60, tool: ruler }
---
`,
  'cases/harrowmere/341.md': `---
casefile: 1
animal: "341"
lesions:
  a: { code: TU, foot: LF, claw: inner, site: toe }
  b: { code: HHE, foot: RH, site: heel bulb }
visits:
  - date: 2026-05-19
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, length: 10, width: 8, tool: ruler }
      b: { state: present }
---
`,
};

/** The farms, read by the program's own reader; a slip in them is no test at all. */
export function practiceOf(today: CalendarDay): Practice {
  const { practice, problems } = readPractice(caseFilesInMemory(files), 'cases', { today });
  const wrong = problems.filter(({ severity }) => severity === 'error');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join('; '));
  return practice;
}

export function twoFarms(today: CalendarDay = '2026-06-16'): readonly FarmRecord[] {
  return practiceOf(today).farms.toReversed();
}

export function noteContext(today: CalendarDay): NoteContext {
  const { farms, business } = practiceOf(today);
  return { today, farms, business };
}
