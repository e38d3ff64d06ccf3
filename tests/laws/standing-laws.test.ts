import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { auditOfFarm } from '../../src/audit/facts/audit-facts.js';
import { missingInPack } from '../../src/audit/missing/missing-in-pack.js';
import { forecastInWords } from '../../src/cli/forecast.js';
import { animalsPage } from '../../src/form/list-pages.js';
import { growingConditions } from '../../src/growth/growth-line.js';
import { growthOfAnimal } from '../../src/growth/growth-of-animal.js';
import { closingsOf } from '../../src/healing/closing/closing-of-ulcer.js';
import { standingOrder } from '../../src/healing/standing.js';
import { composeOverview } from '../../src/overview/compose-overview.js';
import { addDays, daysBetween } from '../../src/record/calendar-day.js';
import { monthOf } from '../../src/record/period.js';
import { episodeResults } from '../../src/record/words.js';
import { noticeRules, urgencies } from '../../src/reference/notices.js';
import { caseEntries } from '../../src/schedule/reading-to-take.js';
import type { CaseWork } from '../../src/schedule/case-work.js';
import type { DueItem, DueWhat } from '../../src/schedule/due/due-item.js';
import { sides } from '../../src/schedule/withheld.js';
import { dueInWords, jobInShort } from '../../src/words/compose-due.js';
import { dayInShort, dayInWords, sentenceCase, planDay } from '../../src/words/day-and-place.js';
import { wordsOf } from '../../src/reference/words.js';
import { anyTroubledPractice, today } from './any-trouble.js';
import { cellsOf, type JobOut, type Outputs, outputsOf, textOf } from './outputs-of-a-day.js';
import { isBeforeVisit, isQuietSince, nextLiftTold, noDateTold, noticesTold, rulesTold, standingTold, stopTold, visitTold } from './standing-told.js'; // prettier-ignore

const businesses = 500;

/** A job of one animal, and how it should be. */
interface Job {
  readonly one: CaseWork;
  readonly item: DueItem;
  readonly standing: DueItem['standing'];
}

interface Known {
  readonly outputs: Outputs;
  readonly isStopped: boolean;
  readonly visit: string | undefined;
  /** Neither done nor suspended. */
  readonly open: readonly Job[];
}

const isClear = ({ what }: DueItem) => what === 'milk-clear' || what === 'meat-clear';
const isOurs = ({ item }: Job) => item.who === 'trimmer';
const of = (jobs: readonly Job[], slug: string) => jobs.filter(({ one }) => one.record.slug === slug);
const sorted = (texts: readonly string[]) => texts.toSorted();
const runsOn = ({ what, task }: DueItem) =>
  what === 'farm-task' && !['wrap off', 'score her walk'].includes(task!);

/** When a job is due, in words. */
function whenTold({ outputs: { words } }: Known, { item, standing }: Job, day: string): string {
  const waits = item.by < today && item.overdueFrom === undefined;
  const key =
    standing === 'overdue' ? 'overdue' : runsOn(item) && item.by >= today ? 'until' : waits ? 'since' : 'due';
  return words.say(`due.when.${key}`, { day });
}

/** What the rules say of the jobs, the signs and the lift, against what every page asks. */
function expectWorkedOut({ outputs, isStopped, visit }: Known): void {
  const { work, farm } = outputs;
  const stop = stopTold(work, farm.farm);
  if (stop === 'one') expect(work[0]?.stop).toBeDefined();
  if (stop === 'several') expect(work[0]?.stop).toBeDefined();
  if (work.some((one) => one.stop?.rule === 'blisters' || one.stop?.rule === 'maggots'))
    expect(stop).toBe('one');
  for (const one of work) {
    const { slug } = one.record;
    const place = (notice: CaseWork['notices'][number]) =>
      `${notice.rule === 'swollen-above-wrap' ? 'swollen-above-foot' : notice.rule} ${notice.lesion ?? notice.foot ?? ''}`;
    const stand = one.notices.filter(({ standing }) => standing).map(place);
    expect(sorted(stand.filter((told) => rulesTold.has(told.split(' ')[0]!))), `signs, ${slug}`).toEqual(sorted(noticesTold(one, farm.farm.language))); // prettier-ignore
    if (one.standing.closed) expect(isQuietSince(one.record.animal, one.standing.closed.on), `closed, ${slug}`).toBe(true); // prettier-ignore
    for (const item of one.due) {
      expect(item.standing, `${item.what} ${item.by}, ${slug}`).toBe(standingTold(item, isStopped, today));
      expect(item.beforeNextVisit, `before the visit: ${item.what}, ${slug}`).toBe(isBeforeVisit(item, visit)); // prettier-ignore
    }
  }
}

/** Page one: what stops work, what cannot wait, the farm's jobs, whom to pen, the vet, and all open cows in order. */
function expectPageOne(known: Known): void {
  const { outputs, open, isStopped, visit } = known;
  const { book, words, work, farm, animals } = outputs;
  const { one } = book;
  const numberOf = (job: Job) => job.one.record.animal.animal;
  const jobOf = (job: Job) => jobInShort(words, job.one.record.animal, job.item).job;
  const isNow = ({ item }: Job) => item.what !== 'vet-answer' && (item.urgency === 'same-day' || item.urgency === 'stop-work'); // prettier-ignore
  const jobs = open.filter(({ item }) => !isClear(item));
  expect(one.stop?.title, 'page one, stop').toBe(isStopped ? words.say('stop.title') : undefined);
  expect(one.visit.value, 'page one, next visit').toBe(visit === undefined ? words.say('one.no-visit') : planDay(words, visit, today)); // prettier-ignore
  // What stops work is said by the banner; a job of several days once.
  const stopped = work.flatMap(({ stop }) => stop?.animals ?? []);
  const urgent = jobs.filter((job) => isNow(job) && !(job.item.urgency === 'stop-work' && stopped.includes(numberOf(job)))); // prettier-ignore
  expect(sorted(one.urgent.map(({ number, job }) => `${number} ${job}`)), 'page one, urgent').toEqual(sorted([...new Set(urgent.map((job) => `${numberOf(job)} ${sentenceCase(jobOf(job))}`))])); // prettier-ignore
  const farms = jobs.filter((job) => job.item.who === 'farm' && !isNow(job));
  const reported = farms.filter(({ item }) => item.what === 'farm-task-done');
  const rows = farms
    .filter((job) => !reported.includes(job))
    .toSorted((x, y) => Number(y.standing === 'overdue') - Number(x.standing === 'overdue') || (x.item.by < y.item.by ? -1 : x.item.by > y.item.by ? 1 : 0)) // prettier-ignore
    .filter((job, at, all) => all.findIndex((each) => numberOf(each) === numberOf(job) && jobOf(each) === jobOf(job)) === at) // prettier-ignore
    .map((job) => `${numberOf(job)} | ${sentenceCase(jobOf(job))} | ${whenTold(known, job, planDay(words, job.item.by, today))} | ${job.standing === 'overdue'}`); // prettier-ignore
  const said = one.farmJobs.rows.map(({ number, job, when, late }) => `${number} | ${job.split('; ')[0]} | ${when} | ${late}`); // prettier-ignore
  expect(sorted(said), 'page one, the farm').toEqual(sorted(rows));
  for (const job of reported)
    expect(one.farmJobs.yesOrNo, `page one, done? ${numberOf(job)}`).toContain(words.say('one.farm.asked', { animal: numberOf(job), task: words.say(`vocabulary.task.${job.item.task!}`), day: dayInShort(words, job.item.by) })); // prettier-ignore
  expect(one.farmJobs.yesOrNo !== undefined, 'page one, done?').toBe(reported.length > 0);

  const lifted = new Map<string, string[]>();
  // A closed case may still bear a block.
  for (const each of work) {
    const day = nextLiftTold(each, { farm: farm.farm, isStopped, today });
    const on = day !== undefined && visit !== undefined && day <= visit ? visit : day;
    if (on !== undefined) lifted.set(on, [...(lifted.get(on) ?? []), each.record.animal.animal]);
  }
  const first = visit ?? [...lifted.keys()].toSorted()[0];
  const penned = (day: string | undefined) => sorted(lifted.get(day ?? '') ?? []);
  expect(sorted(one.pen.numbers.map(({ number }) => number)), 'page one, pen').toEqual(penned(first));
  expect(one.pen.later.map(({ day, numbers }) => [day, ...sorted(numbers.split(' '))]), 'page one, later').toEqual([...lifted.keys()].filter((day) => day !== first).toSorted().map((day) => [planDay(words, day, today), ...penned(day)])); // prettier-ignore
  for (const { calvingNear, record } of work)
    expect(one.pen.notes.some((note) => note.includes(record.animal.animal)), `page one, calving, ${record.slug}`).toBe(calvingNear !== undefined && [...lifted.values()].flat().includes(record.animal.animal)); // prettier-ignore

  const called = animals.filter((each) => standingNotices(each.work).length > 0);
  const his = open.filter(({ item }) => item.what === 'vet-work');
  expect(sorted(one.vet.rows.map(({ number }) => number)), 'page one, vet').toEqual(sorted([...called.map(({ slug }) => slug), ...his.map(numberOf)])); // prettier-ignore
  for (const { number, why, late } of one.vet.rows) {
    const hers = work.find(({ record }) => record.animal.animal === number)!;
    const doing = his.filter((job) => numberOf(job) === number && sentenceCase(jobOf(job)) === why);
    const isLate = standingNotices(hers).some(({ urgency }) => urgency !== 'notice') || hers.due.some(({ what }) => what === 'vet-ring-again'); // prettier-ignore
    const lates = doing.length === 0 ? [isLate] : doing.map(({ standing }) => standing === 'overdue');
    expect(lates, `page one, vet, ${number}`).toContain(late);
  }

  expect(sorted(one.cows.rows.map(({ number }) => number)), 'page one, cows').toEqual(sorted(work.filter(({ standing }) => !standing.closed).map(({ record }) => record.animal.animal))); // prettier-ignore
  expect(one.cows.rows.map(({ sheet, number }) => `${number} ${sheet}`), 'page one, sheets').toEqual(book.cows.slice(0, one.cows.rows.length).map(({ number }, at) => `${number} ${at + 2}`)); // prettier-ignore
  for (const row of one.cows.rows) {
    const hers = work.find(({ record }) => record.animal.animal === row.number)!;
    const lift = nextLiftTold(hers, { farm: farm.farm, isStopped, today });
    expect(row.lift, `page one, lift of ${row.number}`).toBe(lift ? dayInShort(words, lift) : '–');
    const isLate = of(open, hers.record.slug).some(({ item, standing }) => item.what === 'recheck' && standing === 'overdue'); // prettier-ignore
    expect(row.lateLift !== undefined, `page one, late lift of ${row.number}`).toBe(isLate);
  }
}

/** Her sheet: work has stopped, she left under withdrawal, what is to be done and by whom, what the vet is for; and the form. */
function expectSheets(known: Known): void {
  const { outputs, open, isStopped } = known;
  const { words, animals } = outputs;
  for (const { slug, work, page, form } of animals) {
    const hers = of(open, slug);
    const notices = standingNotices(work);
    const headings = page.banners.map(({ heading }) => heading);
    expect(headings, `sheet, banners, ${slug}`).toEqual([
      ...(isStopped ? [words.say('stop.title')] : []),
      ...(work.left ? [words.say('book.left.heading')] : []),
    ]);
    for (const [at, who] of (['farm', 'trimmer', 'vet'] as const).entries()) {
      const { jobs, heading } = page.columns[at]!;
      const his = hers
        .filter(({ item }) => item.who === who && !isClear(item))
        .toSorted((a, b) => (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : 0));
      // What is asked for several days is one line, at the first.
      const byWhat = new Map<string, typeof his>();
      for (const job of his) {
        const { what } = dueInWords(words, work.record.animal, job.item);
        byWhat.set(what, [...(byWhat.get(what) ?? []), job]);
      }
      for (const [what, [first, ...again]] of byWhat) {
        const lead = sentenceCase(whenTold(known, first!, planDay(words, first!.item.by, today)));
        const days = again.map(({ item }) => dayInShort(words, item.by)).join(', ');
        const text = again.length === 0 ? what : `${what}; again ${days}`;
        const isOnFront = jobs.some((one) => one.lead === lead && one.text === text && one.late === (first!.standing === 'overdue')); // prettier-ignore
        const isOverleaf = page.moreJobs?.items.includes(`${heading}: ${lead}: ${text}`) ?? false;
        expect(isOnFront !== isOverleaf, `sheet, ${slug}: ${lead} ${text}`).toBe(true);
      }
      const [worst] = urgencies.filter((urgency) => notices.some((notice) => notice.urgency === urgency));
      const isCalled = who === 'vet' && worst !== undefined;
      expect(jobs.length, `sheet, ${who}, ${slug}`).toBe(Math.min(6, byWhat.size + (isCalled ? 1 : 0)));
      if (isCalled)
        expect([jobs[0]!.lead, jobs[0]!.late], `sheet, vet, ${slug}`).toEqual([sentenceCase(words.say(`book.vet.urgency.${worst}`)), worst !== 'notice']); // prettier-ignore
    }
    expect(form, `form, ${slug}`).toEqual(
      hers.length === 0 ? [words.say('form.visit.nothing-due')] : expect.arrayContaining(dueLines(known, hers, 'form.visit.due-line')), // prettier-ignore
    );
    if (hers.length > 0) expect(form.length, `form, ${slug}`).toBe(hers.length);
  }
}

/** The mail: every job of the farm with its animal, and the next visit. */
function expectMail({ outputs, open, isStopped, visit }: Known): void {
  const { words, summary } = outputs;
  const lines = summary.sections.flatMap((section) => section.lines);
  const said = lines.map(({ lead = '', text = '' }) => `${lead} ${text}`.toLowerCase());
  for (const { one, item, standing } of open.filter((job) => !isClear(job.item) && job.item.who === 'farm')) {
    const { job } = jobInShort(words, one.record.animal, item);
    const what = item.what === 'farm-task-done' ? words.say(`vocabulary.task.${item.task!}`) : job;
    const isByBanner = item.urgency === 'stop-work' && isStopped;
    expect(isByBanner || said.some((line) => line.includes(what.toLowerCase()) && line.includes(one.record.animal.animal)), `mail, ${job} (${standing})`).toBe(true); // prettier-ignore
  }
  if (visit !== undefined && !isStopped)
    expect(summary.sections.some(({ heading }) => heading.includes(planDay(words, visit, outputs.today))), 'mail, next visit').toBe(true); // prettier-ignore
}

const standingNotices = ({ notices }: CaseWork) => notices.filter(({ standing }) => standing);

function dueLines(known: Known, jobs: readonly Job[], key: string): string[] {
  const { words } = known.outputs;
  return jobs.map((job) =>
    words.say(key, {
      when: whenTold(known, job, dayInWords(words, job.item.by)),
      what: dueInWords(words, job.one.record.animal, job.item).what,
      who: words.say(`sheet.who.${job.item.who}`),
    }),
  );
}

/** Sheet, list of the form, handover: what is due, what the vet is for, and that work has stopped. */
function expectAtHand(known: Known): void {
  const { outputs, open, isStopped } = known;
  const { sheet, words, animals, farm, work, language } = outputs;
  for (const { slug, handover } of animals) {
    const hers = of(open, slug);
    const pages = sheet.leaves.find(({ id }) => id === `animal-${slug}`)!.sides;
    expect(sorted(pages.at(-1)!.after!.due), `sheet, ${slug}`).toEqual(sorted(hers.length === 0 ? [words.say('sheet.due-none')] : dueLines(known, hers, 'sheet.due-line'))); // prettier-ignore
    expect(pages[0]!.about!.stop !== undefined, `sheet, stop, ${slug}`).toBe(isStopped);
    const notices = standingNotices(animals.find((one) => one.slug === slug)!.work);
    const said = handover.why.items.map(({ lead = '' }) => lead);
    const should = notices.map(({ urgency, raised }) => words.say('handover.why.since', { urgency: words.say(`notice.urgency.${urgency}`), day: dayInWords(words, raised) })); // prettier-ignore
    if (notices.length > 0) expect(said.filter((lead) => !should.includes(lead)), `handover, ${slug}`).toEqual([]); // prettier-ignore
    if (said.length < notices.length) expect(handover.leftOut, `handover, ${slug}`).not.toBe('');
    else if (notices.length > 0) expect(sorted(said), `handover, ${slug}`).toEqual(sorted(should));
    expect(handover.calls, `handover, ${slug}`).toBe(notices.length > 0);
  }
  const list = animalsPage(words, { record: farm, work, inbox: { open: [] } }, today);
  const soon = open.filter((job) => isOurs(job) && (job.standing === 'overdue' || job.item.by <= addDays(today, 7))); // prettier-ignore
  expect(sorted(list.groups[1]!.links.map(({ to }) => to)), 'form, list').toEqual(sorted([...new Set(soon.map(({ one }) => one.record.slug))])); // prettier-ignore
  for (const { to, lines } of list.groups[1]!.links)
    expect(of(soon, to).map((job) => `${dueInWords(words, job.one.record.animal, job.item).what}, ${whenTold(known, job, dayInWords(words, job.item.by))}`), `form, list, ${to}`).toContain(lines[0]); // prettier-ignore
  expect(
    list.notes.some((note) => note.startsWith(words.say('stop.title'))),
    'form, list',
  ).toBe(isStopped);
  expect(language).toBe(words.language);
}

const jobKey = ({ what, task, who, by, overdueDays }: JobOut) =>
  [what, task, who, by, overdueDays].filter((part) => part !== undefined).join(' ');

const outOf = ({ item, standing }: Job): JobOut => ({
  what: item.what,
  who: item.who,
  by: item.by,
  ...(item.task === undefined ? {} : { task: item.task }),
  ...(standing === 'overdue' ? { overdueDays: daysBetween(item.by, today) } : {}),
});

/** The round, as JSON and as a page, and the calendar: on the planned trip is all that is due by it. */
function expectRound({ outputs, open, isStopped, visit }: Known): void {
  const { inRound, roundPage, round, events, words, work, farm } = outputs;
  const until = visit ?? addDays(today, 28);
  const ours = open.filter((job) => isOurs(job) && job.item.by <= until);
  const hers = (slug: string) => inRound?.lift.find(({ animal }) => animal === slug);
  expect(round.outside).toEqual([]);
  for (const { record, notices } of work) {
    const { slug } = record;
    expect(sorted((hers(slug)?.jobs ?? []).map(jobKey)), `round, ${slug}`).toEqual(sorted(of(ours, slug).map((job) => jobKey(outOf(job))))); // prettier-ignore
    const besides = hers(slug) ?? inRound?.others.find(({ animal }) => animal === slug);
    const standing = notices.filter((notice) => notice.standing);
    expect(sorted((besides?.notices ?? []).map(({ rule, urgency, raised }) => `${rule} ${urgency} ${raised}`)), `round, notices, ${slug}`).toEqual(sorted(standing.map(({ rule, urgency, raised }) => `${rule} ${urgency} ${raised}`))); // prettier-ignore
    const saidByNotice = (what: DueWhat) => standing.length > 0 && ['vet-ask', 'vet-answer'].includes(what);
    const farms = of(open, slug).filter((job) => !isOurs(job) && !isClear(job.item) && job.item.by <= until && job.item.what !== 'withdrawal-not-recorded' && !saidByNotice(job.item.what)); // prettier-ignore
    expect(sorted((besides?.notReported ?? []).map(jobKey)), `round, not reported, ${slug}`).toEqual(sorted(farms.map((job) => jobKey(outOf(job))))); // prettier-ignore
  }
  const between = ours.filter(({ item }) => visit !== undefined && item.by !== visit && item.by >= today);
  expect(sorted((inRound?.apart ?? []).map((job) => `${job.animal} ${jobKey(job)}`)), 'round, apart').toEqual(sorted(between.map((job) => `${job.one.record.slug} ${jobKey(outOf(job))}`))); // prettier-ignore
  const shown = textOf(roundPage.trips);
  for (const { one, item } of ours)
    expect(shown, `round page, ${item.what}`).toContain(dueInWords(wordsOf('en-GB'), one.record.animal, item).what); // prettier-ignore
  const suspended = work.flatMap(({ due }) => due.filter(({ standing }) => standing === 'suspended'));
  expect(roundPage.stops.length > 0, 'round page, stop').toBe(isStopped);
  expect(inRound?.stop?.suspended, 'round, stop').toEqual(isStopped ? suspended.length : undefined);
  if (isStopped) expect(work[0]!.stop!.suspended, 'banner, suspended').toBe(suspended.length);

  const trip = events.find(({ summary }) => summary.includes(words.say('round.calendar.visit', { farm: farm.farm.farm }))); // prettier-ignore
  expect(trip?.day, 'calendar, visit').toBe(visit);
  const present = (trip?.description ?? '').split('\n');
  const onTrip = (job: Job) => isOurs(job) && visit !== undefined && job.item.by <= visit;
  const isEntry = (job: Job) =>
    !isClear(job.item) &&
    job.item.what !== 'withdrawal-not-recorded' &&
    (job.item.who !== 'vet' || job.item.what === 'vet-work') &&
    !(onTrip(job) && (job.item.by === visit || job.item.by < today));
  // What was late already is on the day it is put in.
  const entryDay = ({ item: { by } }: Job) => (by < today ? today : by);
  const jobOf = (job: Job) => jobInShort(words, job.one.record.animal, job.item).job;
  for (const job of open) {
    const { slug } = job.one.record;
    if (onTrip(job))
      expect(present.some((line) => line.startsWith(`${slug}: `) && line.includes(jobOf(job))), `calendar, visit, ${slug} ${jobOf(job)}`).toBe(true); // prettier-ignore
    if (isEntry(job))
      expect(events.some(({ summary, day }) => summary.startsWith(`${slug}: ${jobOf(job)}`) && day <= entryDay(job)), `calendar, ${slug} ${jobOf(job)}`).toBe(true); // prettier-ignore
  }
  for (const { summary, day } of events)
    if (summary !== trip?.summary && !/clear$|not recorded or not known/.test(summary))
      expect(open.some((job) => isEntry(job) && day === entryDay(job) && summary.startsWith(`${job.one.record.slug}: ${jobOf(job)}`)), `calendar, ${summary}`).toBe(true); // prettier-ignore
  if (trip && isStopped) expect(trip.summary).toContain(words.say('stop.title'));
}

/** `forecast` as JSON, the audit's tables and the overview. */
function expectElsewhere({ outputs, open, isStopped }: Known): void {
  const { work, farm, practice, pooled, data } = outputs;
  for (const one of work) {
    const next = nextLiftTold(one, { farm: farm.farm, isStopped, today });
    for (const entry of caseEntries(farm, one, today)) {
      expect(entry.due).toBe(one.due);
      expect(entry.notices).toBe(one.notices);
      if (entry.nextReading) expect(entry.nextReading.date, 'forecast, next reading').toBe(next);
      if (entry.worthMeasuring) expect(next, 'forecast, worth measuring').toBeDefined();
    }
  }
  const facts = auditOfFarm(farm, { from: '2025-01-01', to: today }, { business: practice.business, today, priors: pooled.priors }); // prettier-ignore
  const gaps = missingInPack(facts);
  for (const { record, notices, standing, due, stop } of work) {
    const stand = notices.filter((notice) => notice.standing);
    const unasked = stand.filter((notice) => !notice.asked);
    const toAsk = stand.filter(({ asked, seenAgain }) => !asked || seenAgain);
    const notAsked = gaps.filter((gap) => gap.id === 'vet-not-asked' && gap.record?.slug === record.slug);
    expect(sorted(notAsked.map(({ values }) => `${String(values['rule'])} ${String(values['day'])}`)), `audit, ${record.slug}`).toEqual(sorted(toAsk.map(({ rule, raised }) => `${rule} ${raised}`))); // prettier-ignore
    expect(due.some(({ what }) => what === 'vet-ask'), `vet to be asked, ${record.slug}`).toBe(unasked.length > 0); // prettier-ignore
    const awaited = new Set(facts.referrals.filter((one) => one.record.slug === record.slug && one.answers.length === 0).map(({ asked }) => asked)); // prettier-ignore
    for (const { what, why } of due)
      if (what === 'vet-answer' || why.key === 'due.why.vet-ring-again')
        expect([...awaited], `audit, awaited, ${record.slug}`).toContain(why.values['day']);
    const set = due.find(({ what, basis, doneOn }) => what === 'recheck' && basis === 'written' && doneOn === undefined); // prettier-ignore
    const rechecks = facts.rechecks.filter((one) => one.record.slug === record.slug && one.due === set?.by && standing.episode.visits.includes(one.visit)); // prettier-ignore
    if (set && set.by <= today && set.standing !== 'done')
      expect(rechecks.at(-1)?.standing, `audit, recheck of ${set.by}, ${record.slug}`).toBe(stop && set.by >= stop.since ? 'suspended' : set.by < today ? 'missed' : 'not-due-yet'); // prettier-ignore
  }
  const overdue = open.filter(({ standing }) => standing === 'overdue');
  const overview = composeOverview(practice, [data], outputs.pooled, today).sections.find(
    ({ id }) => id === 'open',
  )!;
  const [row] = cellsOf(overview.table);
  const count = (who: string) => String(overdue.filter(({ item }) => item.who === who).length);
  expect(row?.slice(3, 6), 'overview').toEqual([count('trimmer'), count('farm'), String(work.filter((one) => standingNotices(one).length > 0).length)]); // prettier-ignore
  expect(row?.[2], 'overview').toBe(String(new Set(overdue.map(({ one }) => one)).size));
}

/** A book but for its drawings, where the days of one lesion may be those of another by their fixed steps. */
const withoutDrawings = ({ one, cows, ...book }: Outputs['book']) => [
  { ...one, cows: one.cows.rows.map((row) => ({ ...row, strip: '' })) },
  cows.map(({ overleaf, onScreen, ...sheet }) => [
    { ...sheet, figures: [] },
    ...[overleaf, onScreen].map((there) => ({ ...there, figures: [] })),
  ]),
  book,
];

/** Where a day is said, with what is before it; `1 June` is not said by `11 June`. */
function around(text: string, said: string): string | undefined {
  let at = text.indexOf(said);
  while (at > 0 && /\d/.test(text[at - 1]!)) at = text.indexOf(said, at + 1);
  return at < 0 ? undefined : text.slice(Math.max(0, at - 99), at + said.length);
}

/** The days that a forecast gives, beside the one it counts from. */
const daysIn = (forecast: object) =>
  [...JSON.stringify({ ...forecast, from: '' }).matchAll(/(?<!"from":)"(\d{4}-\d\d-\d\d)"/g)].map(([, day]) => day!); // prettier-ignore

/** No day anywhere of a lesion under a notice of the same day, or read by eye alone. */
function expectNoDate({ outputs }: Known): void {
  const { work, farm, words, practice, data } = outputs;
  let texts: string | undefined;
  for (const one of work) {
    const { animal, slug } = one.record;
    const urgent = standingNotices(one).filter(({ urgency }) => urgency !== 'notice');
    const under = (name: string) =>
      urgent.some(({ lesion, foot }) => (lesion ? lesion === name : !foot || foot === animal.lesions[name]!.foot)); // prettier-ignore
    const told = new Set(noDateTold(one, farm.farm.language));
    const byEye = (name: string) => {
      const tools = animal.visits.flatMap(({ found }) => {
        const read = found?.[name];
        return read?.top === undefined && read?.width === undefined ? [] : [read.tool];
      });
      return tools.length > 0 && tools.every((tool) => tool === 'eye');
    };
    const undated = Object.keys(animal.lesions).filter(
      (name) => told.has(name) || under(name) || byEye(name),
    );
    if (undated.length === 0) continue;
    const isUndated = ({ lesion }: { readonly lesion: string }) => undated.includes(lesion);
    const entries = caseEntries(farm, one, today).filter(isUndated);
    for (const { lesion, out, ifRanUp } of entries)
      expect([out, ifRanUp?.out], `forecast, ${slug} ${lesion}`).toEqual([undefined, undefined]);
    for (const { lesion, forecast } of [...one.growth.lesions, ...one.closings].filter(isUndated)) {
      expect(forecast.outcome, `${slug} ${lesion}`).toBe('none');
      expect(daysIn(forecast), `${slug} ${lesion}`).toEqual([]);
    }
    // The days it would be given otherwise appear nowhere, unless the same day is there for something else.
    const free = { today, prior: one.growth.prior };
    const would = [
      ...growthOfAnimal(animal, growingConditions(farm.farm), free).lesions,
      ...closingsOf(animal, today),
    ].filter(isUndated).flatMap(({ forecast }) => daysIn(forecast)); // prettier-ignore
    const sums = entries.flatMap(
      ({ from, outAfterDays }) =>
      from && outAfterDays ? Object.values(outAfterDays).flatMap((days) => (days === null ? [] : addDays(from, Math.ceil(days)))) : [], // prettier-ignore
    );
    if (would.length + sums.length === 0) continue;
    const forecasts = work.flatMap(({ growth, closings }) =>
      [...growth.lesions, ...closings].map(({ forecast }) => forecast),
    );
    const left = work.map((other) => other.left);
    const worth = work.flatMap((other) => caseEntries(farm, other, today).map(({ worthMeasuring }) => worthMeasuring)); // prettier-ignore
    const written = JSON.stringify([practice, forecasts, left, worth, work.map(({ due, notices }) => [due, notices]), monthOf(today)]); // prettier-ignore
    texts ??= [
      ...[withoutDrawings(outputs.book), outputs.summary, outputs.sheet, outputs.roundPage, outputs.round, outputs.events].map(textOf), // prettier-ignore
      ...outputs.animals.map(({ handover: { figure, ...handover } }) => textOf([handover, figure?.heading])),
      textOf(composeOverview(practice, [data], outputs.pooled, today)),
      textOf(work.map((each) => forecastInWords(words, farm, each, today))),
      JSON.stringify(work.flatMap((each) => caseEntries(farm, each, today))),
    ].join(' ');
    const { page } = outputs.animals.find((each) => each.slug === slug)!;
    const figures = [page, page.overleaf, page.onScreen].flatMap((part) => part.figures);
    const drawn = figures.filter(({ id }) => undated.some((name) => id.endsWith(`-wall-${name}`) || id.endsWith(`-closing-${name}`))); // prettier-ignore
    for (const { id, table } of drawn)
      expect(cellsOf(table).flat(), id).not.toContain(words.say('figure.wall.reads.expected'));
    for (const day of [...would, ...sums].filter((each) => each > today && !written.includes(each)))
      for (const said of [dayInWords(words, day), day])
        for (const text of [texts, textOf(drawn)])
          expect(around(text, said), `${slug} ${undated.join()}`).toBeUndefined(); // prettier-ignore
  }
}

const dueWhats: Record<DueWhat, true> = {
  recheck: true, 'measure-again': true, 'block-look': true, 'block-off': true, 'wrap-off': true, 'gait-rescore': true,
  'severe-look': true, 'foul-look': true, 'milk-clear': true, 'meat-clear': true, 'withdrawal-not-recorded': true,
  'pain-relief-ask': true, 'vet-answer': true, 'vet-ask': true, 'vet-ring-again': true, 'footbath-ask-vet': true,
  'farm-task': true, 'farm-task-done': true, 'vet-work': true, 'look-other-foot': true,
}; // prettier-ignore

/** Everything a case can come to that the laws are about. What a person asks for by hand no record raises. */
const toReach: readonly string[] = [
  ...noticeRules.filter(({ from }) => from === 'record').map(({ id }) => `notice ${id}`),
  ...urgencies.map((urgency) => `urgency ${urgency}`),
  ...standingOrder.map((word) => `lesion ${word}`),
  ...['sound', 'lame-off-block', 'easier-on-block', 'lame-on-block', 'lame-block-unclear', 'not-lame-not-proved', 'not-scored'].map((word) => `walk ${word}`),
  ...['open', ...episodeResults].map((word) => `case ${word}`),
  ...sides.flatMap((side) => ['nothing', 'withheld', 'not-known'].map((word) => `${side} ${word}`)),
  ...Object.keys(dueWhats).map((what) => `due ${what}`),
  ...['done', 'open', 'overdue', 'suspended', 'before the visit', 'near calving'].map((word) => `job ${word}`),
  ...['none', 'blisters', 'blisters asked', 'blisters answered', 'maggots', 'several-animals-ill', 'several-animals-ill asked', 'several-animals-ill answered'].map((word) => `stop ${word}`),
  ...['range', 'same-day-notice', 'by-eye'].flatMap((why) => [`gap ${why}`, `ulcer ${why}`]),
  ...['none', 'passed', 'today', 'tomorrow', 'later'].map((word) => `visit ${word}`),
  'visit tomorrow, due today',
]; // prettier-ignore

function reachedBy({ outputs: { work, farm }, visit }: Known): string[] {
  const [stop] = work.flatMap((one) => one.stop ?? []);
  const next = farm.farm['next-visit'];
  const asking = stop?.answered ? ' answered' : stop?.asked ? ' asked' : '';
  const isDueToday = work.some(({ due }) => due.some(({ who, by, standing }) => who === 'trimmer' && by === today && standing !== 'done')); // prettier-ignore
  return [
    ...(stop ? [`stop ${stop.rule}`, `stop ${stop.rule}${asking}`, `notice ${stop.rule}`] : ['stop none']),
    `visit ${next === undefined ? 'none' : next < today ? 'passed' : next === today ? 'today' : next === addDays(today, 1) ? 'tomorrow' : 'later'}`,
    ...(visit === addDays(today, 1) && isDueToday ? ['visit tomorrow, due today'] : []),
    ...work.flatMap(({ notices, standing, withheld, due, growth, closings }) => [
      ...notices.flatMap((notice) => (notice.standing ? [`notice ${notice.rule}`, `urgency ${notice.urgency}`] : [])), // prettier-ignore
      ...standing.lesions.map((lesion) => `lesion ${lesion.standing}`),
      `walk ${standing.gait.standing}`,
      `case ${standing.closed?.result ?? 'open'}`,
      ...sides.map((side) => `${side} ${withheld[side].outcome}`),
      ...due.flatMap((item) => [`due ${item.what}`, `job ${item.standing}`, ...(item.beforeNextVisit ? ['job before the visit'] : []), ...(item.nearCalving ? ['job near calving'] : [])]), // prettier-ignore
      ...growth.lesions.map(({ forecast }) => `gap ${forecast.outcome === 'range' ? 'range' : forecast.why}`),
      ...closings.map(({ forecast }) => `ulcer ${forecast.outcome === 'range' ? 'range' : forecast.why}`),
    ]),
  ];
}

const tally = new Map<string, number>();

test(`over ${businesses} businesses no two outputs of one day disagree about what is on an animal, and none gives a day beside a notice of the same day or by eye alone`, () => {
  fc.assert(
    fc.property(anyTroubledPractice, (practice) => {
      const outputs = outputsOf(practice, today);
      const { work, farm } = outputs;
      const isStopped = work.some(({ stop }) => stop !== undefined);
      const jobs = work.flatMap((one) =>
        one.due.map((item): Job => ({ one, item, standing: standingTold(item, isStopped, today) })),
      );
      const open = jobs.filter(({ standing }) => standing === 'open' || standing === 'overdue');
      const known: Known = { outputs, isStopped, visit: visitTold(farm.farm, today), open };
      expectWorkedOut(known);
      expectPageOne(known);
      expectSheets(known);
      expectMail(known);
      expectAtHand(known);
      expectRound(known);
      expectElsewhere(known);
      expectNoDate(known);
      for (const one of new Set(reachedBy(known))) tally.set(one, (tally.get(one) ?? 0) + 1);
    }),
    { seed: 20260616, numRuns: businesses },
  );
  expect(toReach.filter((one) => !tally.has(one)), [...tally].map(([one, count]) => `${one}: ${count}`).toSorted().join('\n')).toEqual([]); // prettier-ignore
}, 240_000);
