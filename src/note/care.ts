import { terminal } from '../problem/message.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type FarmTask, farmTasks, type PainRelief } from '../record/words.js';
import { afterSpan } from './day-said.js';
import { type Item, saysNothing } from './item.js';
import { isOne } from './note-words.js';
import type { VisitReader } from './visit-reader.js';

/** Pain relief: who gave, asked, advised or refused it. */
export function readPain(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const notLame = item.is.has('not-lame');
  if (!item.is.has('pain') && !notLame) return undefined;
  const [from, to] = nearby(r, at);
  const words = r.items.slice(from, to);
  const has = (kind: string): number => words.findIndex(({ is }) => is.has(kind));
  const any = (kind: string): boolean => has(kind) >= 0;
  const sentence = r.items.slice(Math.max(r.start(at, false), at - 12), Math.min(r.end(at, false), at + 12));
  const denied = any('negation') || r.modality.denied !== undefined;
  if (notLame) {
    const pain = r.items.slice(at, to).findIndex(({ is }) => is.has('pain'));
    if (pain < 0 || r.modality.denied !== undefined) return undefined;
    return r.put(at, at + pain + 1, 'pain-relief', 'not lame') ? at + pain + 1 : undefined;
  }
  const isVet = (one: Item): boolean => one.is.has('vet-noun') || one.person?.role === 'vet';
  const isFarm = (one: Item): boolean =>
    one.is.has('farm-noun') || one.person?.role === 'farm' || isOne('he', one.bare);
  // `farmer is going to ask the vet`, `Len will ring her`: who asks is the farm.
  const farmAsks = (n: number): boolean => {
    let back = n - 1;
    while (back >= 0 && !isFarm(words[back]!) && (saysNothing(words[back]!) || words[back]!.is.has('plan')))
      back -= 1;
    return back >= 0 && isFarm(words[back]!);
  };
  const saysNone = (all: readonly Item[]): boolean => {
    const vet = all.findIndex(isVet);
    const behind = all.slice(vet);
    return (
      vet >= 0 &&
      behind.some(({ is }) => is.has('says')) &&
      (behind.some(({ is, bare }) => is.has('negation') && bare !== 'without') ||
        behind.some(({ bare }) => bare === 'none' || bare === 'nothing'))
    );
  };
  let word: PainRelief | undefined;
  let end = at + 1;
  const isOwn = (one: Item | undefined): boolean =>
    one !== undefined && (one.bare === 'i' || one.bare === 'we' || isVet(one));
  const declinedAt = words.findIndex(({ is }, n) => is.has('declined') && !isOwn(words[n - 1]));
  const heDeclined = declinedAt >= 0 && isOne('he', words[declinedAt]!.bare.split(' ')[0]);
  if (saysNone(sentence) && (denied || sentence.some(({ bare }) => bare === 'none' || bare === 'nothing'))) {
    word = 'vet says none';
    end = r.end(at, false);
  } else if (declinedAt >= 0 && (heDeclined || words.some(isFarm))) {
    word = 'farm declined';
    end = Math.max(at + 1, from + declinedAt + 1);
  } else if (
    sentence.some(({ is }, n) => is.has('declined') && !isOwn(sentence[n - 1])) &&
    sentence.some(isFarm)
  ) {
    word = 'farm declined';
    end = r.items.findIndex((one, index) => index > at && one.is.has('declined')) + 1 || at + 1;
  } else if (denied && any('not-lame')) {
    word = 'not lame';
    end = from + has('not-lame') + 1;
  } else if (denied) word = undefined;
  else if (
    words.some(
      (one, n) => (one.is.has('asked') || one.is.has('advised')) && words.slice(n + 1, n + 3).some(isFarm),
    ) &&
    !words.some((one, n) => one.is.has('call') && isVet(words[n + 1] ?? one))
  )
    word = 'advised';
  else if (
    any('asked') &&
    !words.some((one, n) => one.is.has('asked') && farmAsks(n)) &&
    !words.some((one, n) => one.is.has('asked') && isFarm(words[n + 1] ?? one))
  )
    word = 'asked';
  else if (words.some((one, n) => one.is.has('call') && !farmAsks(n)) && words.some(isVet)) word = 'asked';
  else if (any('advised') || (any('asked') && words.some(isFarm))) word = 'advised';
  else if (
    any('pain-given') &&
    r.modality.planned === undefined &&
    !words.some(({ bare }) => bare === 'please')
  )
    word = 'given';
  if (word === undefined) return undefined;
  const { denied: was, planned } = r.modality;
  r.modality = { ...r.modality, denied: undefined, planned: undefined };
  const verb = words.findIndex(
    ({ is }) => is.has('asked') || is.has('advised') || is.has('pain-given') || is.has('declined'),
  );
  const last = Math.max(
    end,
    word === 'vet says none' ? end : verb >= 0 ? Math.min(from + verb + 1, to) : end,
  );
  let first = verb >= 0 && from + verb < at ? from + verb : at;
  // Whose word it is, right before or behind, is part of what is said.
  const isWhose = (one: Item | undefined): boolean => one !== undefined && (isFarm(one) || isVet(one));
  const before = r.items.slice(from, first).findLastIndex((one) => !saysNothing(one));
  if (before >= 0 && isWhose(r.items[from + before])) first = from + before;
  const behind = r.skip(last);
  const until = behind < to && isWhose(r.items[behind]) ? behind + 1 : last;
  const wrote = r.put(first, until, 'pain-relief', word);
  r.modality = { ...r.modality, denied: was, planned };
  if (wrote && was !== undefined) r.taken.add(was);
  return wrote ? until : undefined;
}

/** The words of one clause round a piece, in a note without stops as far as no other statement goes. */
function nearby(r: VisitReader, at: number): [number, number] {
  let [from, to] = [at, at + 1];
  if (r.end(at, true) - r.start(at, true) <= 14) return [r.start(at, true), r.end(at, true)];
  const [start, end] = [r.start(at, true), r.end(at, true)];
  while (from > start && from > at - 8 && !(r.taken.has(from - 1) && !saysNothing(r.items[from - 1]!)))
    from -= 1;
  const other = ['gait', 'foot', 'lesion', 'block', 'wrap', 'recheck', 'trimmed', 'condition'];
  while (
    to < end &&
    to < at + 9 &&
    !other.some((kind) => r.items[to]!.is.has(kind) && !r.items[to]!.is.has('advised'))
  )
    to += 1;
  return [from, to];
}

/** The vet asked: rung, called, told, with why. */
export function readVet(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const isVet = (one: Item | undefined): boolean =>
    one !== undefined && (one.is.has('vet-noun') || one.person?.role === 'vet');
  const isCall = (one: Item | undefined): boolean => one !== undefined && one.is.has('call');
  if (!isVet(item) && !isCall(item) && !item.is.has('answered') && !item.is.has('vet-answer'))
    return undefined;
  const answer = readVetAnswer(r, at);
  if (answer !== undefined) return answer;
  if (!isVet(item) && !isCall(item)) return undefined;
  const [from, to] = [r.start(at, false), r.end(at, false)];
  let other = -1;
  if (isCall(item)) {
    const next = r.skip(at + 1, 'up in');
    if (isVet(r.items[next])) other = next;
    else if (
      isOne('rang', item.bare) &&
      (r.items[next]?.kind === 'time' || next >= to || r.items[next]?.bare === ')')
    ) {
      // `vet coming today (rang 9am)`
      const back = r.items.slice(Math.max(0, from - 1), at).findLastIndex(isVet);
      if (back >= 0) other = next > at + 1 && r.items[next]?.kind === 'time' ? next : at;
      if (back >= 0 && r.items[next]?.kind === 'time') other = next;
    }
  } else {
    const next = r.skip(at + 1, 'been');
    if (isCall(r.items[next])) other = next;
  }
  if (other < 0) return undefined;
  const subject = r.items[at - 1];
  // `he calls the vet`, `Bridie will ring the vet`, `vet to be told`.
  const whose = subject?.bare === 'to' ? r.items[at - 2] : undefined;
  if (whose && (whose.person?.role === 'farm' || whose.is.has('farm-noun') || isOne('them', whose.bare)))
    return undefined;
  if (
    subject &&
    (isOne('he or she', subject.bare) || subject.person?.role === 'farm' || subject.is.has('farm-noun'))
  )
    return undefined;
  const between = r.items.slice(Math.min(at, other), Math.max(at, other));
  if (r.suppressed || between.some(({ is }) => is.has('plan') || is.has('negation'))) return undefined;
  if (isVet(item) && r.items[other]!.bare === 'call') return undefined;
  const pain = r.items.slice(other, r.end(other, false)).some(({ is }) => is.has('pain'));
  const why = whyBehind(r, other + 1, to);
  const asked = askedOn(r, from, to);
  const end = Math.max(at, other) + 1;
  const sentence = r.text.slice(r.items[from]!.from, r.items[to - 1]!.to).trim();
  if (!r.draft.vet) {
    const colon = r.items.findIndex((one, index) => index > other && index < to && one.bare === ':');
    const said = r.items[Math.max(at, other) + 1];
    if (colon > 0 && said?.kind === 'day' && colon === Math.max(at, other) + 2) {
      const last = r.end(colon + 1, true);
      r.draft.vet = {
        asked: r.day(said.day!, 'latest') ?? asked,
        why: r.text.slice(r.items[colon + 1]!.from, r.items[Math.max(last, colon + 2) - 1]!.to),
      };
      r.say(Math.min(at, other), last, `vet asked ${r.draft.vet.asked}`);
      for (let index = colon; index < last; index += 1) r.taken.add(index);
      return last;
    }
    const about = colon > 0 ? aboutIn(r, Math.max(at, other) + 1, colon) : undefined;
    if (about) {
      const words = r.text.slice(
        r.items[colon + 1]!.from,
        r.items[Math.max(r.end(colon + 1, true), colon + 2) - 1]!.to,
      );
      r.draft.vet = { asked, why: words, about };
      r.say(at, r.end(colon + 1, true), `vet asked ${asked}`);
      for (let index = at; index < r.end(colon + 1, true); index += 1) r.taken.add(index);
      return r.end(colon + 1, true);
    }
    r.draft.vet = { asked, why: why?.words ?? sentence };
    r.say(at, end, `vet asked ${asked}`);
    if (why && !pain) r.say(why.from, why.said ? why.to : why.from + 1, 'vet why');
  } else r.say(at, end, 'vet asked');
  return end;
}

function askedOn(r: VisitReader, from: number, to: number): CalendarDay {
  const said = r.items
    .slice(from, to)
    .find(({ kind, day }) => kind === 'day' && day?.relative !== undefined && day.relative < 0);
  return (said && r.day(said.day!, 'latest')) ?? r.date;
}

/** `about …`, `for …`, `- hot above the claw`, `: worse`. */
function whyBehind(
  r: VisitReader,
  at: number,
  to: number,
): { words: string; from: number; to: number; said: boolean } | undefined {
  for (let index = at; index < Math.min(to, at + 4); index += 1) {
    const item = r.items[index]!;
    if (isOne('reason', item.bare)) {
      let end = index + 1;
      const last = r.end(index + 1, true);
      while (
        end < last &&
        !['gait', 'block', 'wrap', 'recheck', 'pain', 'trimmed'].some((kind) => r.items[end]!.is.has(kind))
      )
        end += 1;
      const words =
        r.items[index + 1] &&
        r.text.slice(r.items[index + 1]!.from, r.items[Math.max(end, index + 2) - 1]!.to);
      return words
        ? { words, from: index, to: Math.max(end, index + 2), said: /^[a-z]/.test(item.bare) }
        : undefined;
    }
    if (!saysNothing(item) && item.kind !== 'time') return undefined;
  }
  return undefined;
}

/** What the vet answered: to the last question on file unless a day is said; `vet closes` says that nothing is open. */
function readVetAnswer(r: VisitReader, at: number): number | undefined {
  const to = r.end(at, false);
  const head = r.items.slice(at, Math.min(to, at + 4));
  const verb = head.findIndex(({ is }) => is.has('answered') || is.has('vet-answer'));
  if (verb < 0 || r.suppressed || isOne('is or was', head[verb - 1]?.bare)) return undefined;
  const colon = r.items.findIndex(
    (one, index) =>
      index > at + verb && index < to && (one.bare === ':' || one.is.has('why') || isOne('reply', one.bare)),
  );
  const quoted = r.items.findLastIndex(
    (one, index) => index > at + verb && index < to && one.kind === 'quoted',
  );
  const end = colon > 0 ? colon : to;
  const by = r.items.slice(at, end).find(({ person, kind }) => person?.role === 'vet' || kind === 'quoted');
  const dayAt = r.items.findIndex((one, index) => index > at && index < end && one.kind === 'day');
  const asked = r.animal.visits.findLast((visit) => visit.vet && visit.date <= r.date)?.vet?.asked;
  const day = dayAt > 0 ? r.day(r.items[dayAt]!.day!, 'latest') : asked;
  if (day === undefined) return undefined;
  const closes = head.some(({ is }) => is.get('vet-answer') === 'closes');
  if (closes && colon < 0 && r.draft['vet-answer']) {
    r.draft['vet-answer'].closes = true;
    r.say(at, at + verb + 1, 'vet closes');
    return at + verb + 1;
  }
  let from =
    quoted > colon && quoted > 0 && (colon > 0 || r.items[quoted - 1]?.bare === 'reply')
      ? quoted
      : colon > 0
        ? colon + 1
        : to + 1;
  while (r.items[from] && (r.items[from]!.kind === 'line' || r.items[from]!.kind === 'stop')) from += 1;
  const last = r.items[from]?.kind === 'quoted' ? from + 1 : r.end(from, false);
  if (r.items[from] === undefined || last <= from) return undefined;
  const reply =
    r.items[from]!.kind === 'quoted'
      ? r.items[from]!.bare
      : r.text.slice(r.items[from]!.from, r.items[last - 1]!.to);
  const name =
    by?.person?.name ??
    (by?.kind === 'quoted' ? by.bare : undefined) ??
    r.farm.farm.vet?.name ??
    r.farm.farm.vet?.practice ??
    terminal('note.the-vet');
  const about = aboutIn(r, at, end);
  r.draft['vet-answer'] = {
    to: day,
    by: name,
    reply,
    ...(about ? { about } : {}),
    ...(closes ? { closes: true } : {}),
  };
  r.draft.kind ??= 'report';
  r.reporter ??= name;
  r.say(at, last, `vet-answer to ${day}`);
  for (let index = at; index < last; index += 1) r.taken.add(index);
  return last;
}

/** `about LH and pus`: feet, signs, lesions by their names. */
function aboutIn(r: VisitReader, from: number, to: number): string[] | undefined {
  const start = r.items.findIndex((one, index) => index >= from && index < to && one.bare === 'about');
  if (start < 0) return undefined;
  const all: string[] = [];
  for (let at = start + 1; at < to; at += 1) {
    const { is, bare } = r.items[at]!;
    const said =
      is.get('sign') ?? is.get('animal-sign') ?? is.get('foot') ?? (bare === 'lame' ? 'lame' : undefined);
    if (said !== undefined) for (const one of said.split(/ (?=[LR][FH]$)/)) all.push(one);
    else if (is.has('called') && r.lesionNames.includes(r.items[at + 1]?.bare ?? ''))
      all.push(r.items[(at += 1)]!.bare);
    else if (!saysNothing(r.items[at]!)) return undefined;
  }
  return all.length > 0 ? all : undefined;
}

/** What the farm is asked to do, by a day: `keep her on straw until the 30th`. */
export function readTask(r: VisitReader, at: number): number | undefined {
  const { is, bare } = r.items[at]!;
  const task = is.get('task') as FarmTask | undefined;
  if (task === undefined || r.modality.past !== undefined) return undefined;
  const start = r.start(at, false);
  const lead = r.items.slice(start, at);
  const asks = lead.some((one) => one.is.has('ask-farm') || one.is.has('asked') || one.is.has('farm-noun') || one.person?.role === 'farm' || isOne('told to', one.bare)) || /^(?:keep|score|watch)/.test(bare) || isBid(r, at, start); // prettier-ignore
  if (!asks || lead.some((one) => one.is.has('farm-did'))) return undefined;
  // `ring me` only if she gets worse.
  const worse = task === 'ring if worse';
  if (
    worse &&
    !bare.includes('worse') &&
    !r.items.slice(start, r.end(at, false)).some((one) => one.is.has('worse'))
  )
    return undefined;
  let end = at + 1;
  let by: CalendarDay | undefined;
  for (let index = at + 1; index < Math.min(r.end(at, false), at + 6); index += 1) {
    const one = r.items[index]!;
    if (one.kind === 'span') by = afterSpan(r.date, one.span!);
    else if (one.kind === 'day') by = r.day(one.day!, 'next');
    else if (one.bare === 'then' && r.draft['ask-farm']?.length) by = r.draft['ask-farm'].at(-1)!.by;
    else if (
      (saysNothing(one) && one.kind !== 'stop' && one.bare !== ',') ||
      one.is.has('until') ||
      one.is.has('worse')
    )
      continue;
    end = by === undefined ? end : index + 1;
    break;
  }
  // `keep her on straw till the 14th and out of the footbath`
  const before = r.draft['ask-farm']?.at(-1);
  if (
    by === undefined &&
    before &&
    !worse &&
    r.items[at - 1]?.bare === 'and' &&
    r.items.slice(start, at).some((one) => one.is.get('task') === before.what)
  )
    // prettier-ignore
    ({ by } = before);
  if (by === undefined && worse) {
    by = r.draft.recheck ?? r.draft['ask-farm']?.at(-1)?.by ?? afterSpan(r.date, { days: 14, months: 0 });
    const until = by!;
    r.ask(at, end, 'until-when', { task }, [{ label: until, text: `${r.items[at]!.text} until ${until}` }]);
    return end;
  }
  if (by === undefined || by < r.date) return undefined;
  const tasks = (r.draft['ask-farm'] ??= []);
  tasks.push({ what: task, by });
  let first = at;
  for (let index = at - 1; index >= start && !r.taken.has(index); index -= 1) {
    const one = r.items[index]!;
    const asking = one.is.has('ask-farm') || one.is.has('asked') || one.is.has('farm-noun') || one.kind === 'person' || one.is.has('negation') || one.is.has('worse') || one.is.has('plan'); // prettier-ignore
    if (asking) first = index;
    else if (!saysNothing(one)) break;
  }
  r.say(first, end, `ask farm: ${task} by ${by}`);
  return end;
}

/** `On straw till Friday.`: a sentence that says where she goes and until when bids it. */
function isBid(r: VisitReader, at: number, start: number): boolean {
  if (!r.items.slice(start, at).every(saysNothing)) return false;
  const [until, day] = r.items.slice(at + 1, at + 3);
  return until?.is.has('until') === true && (day?.kind === 'day' || day?.kind === 'span');
}

/** `Len had taken the last wrap off on the 19th as asked`: done by the farm. */
export function readFarmDid(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const did = item.is.has('farm-did');
  const to = r.end(at, false);
  const start = r.start(at, true);
  const lead = r.items.slice(start, at);
  const farm = lead.some(({ person, is }) => person?.role === 'farm' || is.has('farm-noun'));
  const past = lead.some(({ bare }) => isOne('taken', bare.split(' ')[0]));
  if (!did && !(item.is.has('wrap') && farm && past)) return undefined;
  const words = r.items.slice(at, to);
  const wrap = words.findIndex(({ is }) => is.has('wrap'));
  const named = words.find(({ is }) => is.has('task'))?.is.get('task') as FarmTask | undefined;
  const dayAt = words.findIndex(({ kind }) => kind === 'day');
  const day = dayAt >= 0 ? r.day(words[dayAt]!.day!, 'latest') : undefined;
  const what = wrap >= 0 ? ('wrap off' as const) : named;
  if (day === undefined || what === undefined || r.suppressed || !farmTasks.includes(what)) return undefined;
  if (day > r.date) return undefined;
  (r.draft['farm-did'] ??= []).push({ what, on: day });
  r.say(start, at + dayAt + 1, `farm did: ${what} on ${day}`);
  return at + dayAt + 1;
}
