/** An invented farm whose first quarter of 2026 was worked out by hand: see hand-worked.test.ts. */
export const handWorkedFarm: Readonly<Record<string, string>> = {
  'cases/business.md': `---
business: Venn Foot Care
people:
  - { name: Orla Venn, training: "certificate", valid-to: 2026-02-28 }
  - { name: Sib Marrable, training: "in training" }
---
`,
  'cases/oddfold/farm.md': `---
farm: Oddfold
herd: { cows: 100 }
gait-scale: uk-0-3
milkings-a-day: 2
gait-rounds:
  - { date: 2025-12-31, by: Orla Venn, scored: 90, counts: { 0: 80, 1: 8, 2: 2, 3: 0 } }
  - { date: 2026-01-20, by: Sib  marrable, scored: 80, counts: { 0: 50, 1: 18, 2: 9, 3: 3 } }
  - { date: 2026-04-01, by: Orla Venn, scored: 90, counts: { 0: 80, 1: 8, 2: 2, 3: 0 } }
plan: { date: 2025-11-12, with: "P. Wexmarrow" }
---
`,
  // Began before the period, ended after it: belongs, whole.
  'cases/oddfold/101.md': `---
casefile: 1
animal: "101"
tag: UK 000123 100101
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
episodes:
  - { lame-since: 2025-12-20, told-by: "milker", ended: 2026-04-20, result: sound }
visits:
  - date: 2026-01-06
    at: "10:40"
    by: Orla Venn
    kind: first
    gait: 2
    found: { a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape } }
    trimmed: [LH]
    cut-back: [a]
    blocks: [ { foot: LH, claw: inner, event: fitted, material: wood } ]
    pain-relief: asked
    tools-disinfected: true
    recheck: 2026-02-03
    products:
      - { product: "pain relief", active: "x", class: medicine, batch: "K1", amount: "20 ml", route: injection, on: 2026-01-06, until: 2026-01-08, milk-days: 4, meat-days: 0, given-by: "P. Wexmarrow", prescribed-by: "P. Wexmarrow" }
      - { product: "=spray", class: not sure }
      - { product: "hoof pads", class: not a medicine }
  - date: 2026-02-03
    by: Orla Venn
    kind: recheck
    gait: 1
    on-block: true
    found: { a: { state: open, top: 21, top-found: seen, wall: 43, tool: tape } }
    tools-disinfected: true
    recheck: 2026-03-03
  - date: 2026-03-03
    by: Orla Venn
    kind: missed
    why: "calving that morning"
  - date: 2026-03-10
    by: Sib Marrable
    kind: recheck
    gait: 0
    found: { a: { state: open, top: 27, top-found: seen, wall: 43, tool: tape } }
    blocks: [ { foot: LH, claw: inner, event: removed, carrying-claw: sound } ]
    tools-disinfected: true
    recheck: 2026-04-07
  - date: 2026-04-20
    by: Orla Venn
    kind: recheck
    gait: 0
    found: { a: { state: healed } }
---
`,
  // Scored lame by a report with a time, lifted with a time: hours. The vet asked and answering; a recheck nobody kept.
  'cases/oddfold/102.md': `---
casefile: 1
animal: "102"
lesions:
  u: { code: SU, foot: RH, claw: outer, site: sole-heel junction }
visits:
  - { date: 2026-01-10, at: "06:40", by: Farm Hand, kind: report, gait: 2 }
  - date: 2026-01-12
    at: "08:10"
    by: Orla Venn
    kind: first
    gait: 3
    found: { u: { state: open, length: 20, width: 14, tool: ruler } }
    vet: { asked: 2026-01-12, why: "raw and deep" }
    recheck: 2026-01-26
    pain-relief: given
  - { date: 2026-01-14, by: Farm Hand, kind: report, vet-answer: { to: 2026-01-12, by: "P. Wexmarrow", reply: "Seen. Keep her on straw." } }
  - { date: 2026-02-20, by: Farm Hand, kind: report, vet: { asked: 2026-02-20, why: "no better" } }
---
`,
  // Lame when she was lifted, and nobody wrote since when; no word on pain relief; tools not disinfected.
  'cases/oddfold/103.md': `---
casefile: 1
animal: "103"
lesions:
  a: { code: DD, foot: LH, site: skin behind heels }
visits:
  - { date: 2026-03-31, by: Sib Marrable, kind: first, gait: 2, found: { a: { stage: M2, length: 22, width: 18, tool: ruler } }, tools-disinfected: false }
---
`,
  // Over the day before the period began: does not belong.
  'cases/oddfold/104.md': `---
casefile: 1
animal: "104"
lesions:
  a: { code: SU, foot: LH, claw: outer, site: sole }
episodes: [ { lame-since: 2025-10-01, told-by: "milker", ended: 2025-12-31, result: culled } ]
visits:
  - { date: 2025-10-03, by: Orla Venn, kind: first, gait: 2, found: { a: { state: open, length: 9, width: 7, tool: ruler } } }
---
`,
  // Over on the first day of the period: belongs. A recheck set for after its end is not missed.
  'cases/oddfold/105.md': `---
casefile: 1
animal: "105"
lesions:
  a: { code: SU, foot: LH, claw: outer, site: sole }
episodes: [ { lame-since: 2025-11-01, told-by: "milker", ended: 2026-01-01, result: sold } ]
visits:
  - { date: 2025-11-05, by: Orla Venn, kind: first, gait: 2, found: { a: { state: open, length: 9, width: 7, tool: ruler } }, recheck: 2026-01-05 }
---
`,
  // Began the day after the period: does not belong. Trouble found and never lame: belongs, and is not counted lame.
  'cases/oddfold/106.md': `---
casefile: 1
animal: "106"
lesions: {}
episodes: [ { lame-since: 2026-04-01, told-by: "milker" } ]
visits: []
---
`,
  'cases/oddfold/107.md': `---
casefile: 1
animal: "107"
lesions:
  a: { code: TS, foot: LH, claw: outer, site: sole }
visits:
  - { date: 2026-02-14, by: Orla Venn, kind: routine, gait: 0, found: { a: { state: present } }, tools-disinfected: true }
---
`,
  // Looked at, nothing found: a visit, no lameness episode.
  'cases/oddfold/108.md': `---
casefile: 1
animal: "108"
lesions: {}
visits:
  - { date: 2026-02-14, by: Orla Venn, kind: routine, gait: 1, trimmed: [LH, RH] }
---
`,
};
