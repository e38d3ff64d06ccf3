import type { ProductUse } from '../record/visit.js';
import type { ProductClass } from '../record/words.js';
import { isOne } from './note-words.js';
import type { VisitReader } from './visit-reader.js';

/** A product with its name: `sprayed it with the farm's own spray, batch S2207, a medicine, nil milk and nil meat`. */
export function readProduct(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  if (!item.is.has('product') || r.suppressed) return undefined;
  let from = at + 1;
  const hasWith = /\bwith\b|\bw$/.test(item.bare) || item.bare === 'product';
  if (!hasWith) {
    const lead = r.items
      .slice(at + 1, at + 8)
      .findIndex(
        ({ bare, kind, text }) =>
          bare === 'with' || (bare === 'w' && text === 'w') || kind === 'stop' || kind === 'line',
      );
    if (lead < 0 || !isOne('with short', r.items[at + 1 + lead]!.bare)) return undefined;
    from = at + 2 + lead;
  }
  if (r.items[from]?.bare === '/') from += 1;
  let end = r.end(from, true);
  // `with copper spray yesterday`: the day is no part of its name.
  const dayAt = r.items.findIndex(({ kind }, index) => index > from && index < end && kind === 'day');
  const on = dayAt > 0 ? r.day(r.items[dayAt]!.day!, 'latest') : undefined;
  if (dayAt > 0) end = dayAt;
  if (end <= from) return undefined;
  const first = r.items[from]!;
  const product =
    first.kind === 'quoted'
      ? first.bare
      : r.text.slice(first.from, r.items[end - 1]!.to).replace(/^(?:the|a|some) /i, '');
  if (!/[\p{L}\p{N}]/u.test(product)) return undefined;
  const use: ProductUse = { product, ...(on === undefined || on === r.date ? {} : { on }) };
  const giver = r.items[at - 1]?.person;
  if (giver) use['given-by'] = giver.name;
  const lesions = r.items.slice(at, from).some(({ is }) => is.has('lesion')) ? undefined : r.last;
  const skin = lesions ?? r.candidates(['dermatitis', 'ulcer']).find((_, __, all) => all.length === 1);
  if (skin !== undefined) use.lesion = skin;
  if (on !== undefined) r.say(dayAt, dayAt + 1, `product on ${on}`);
  const stop = sentencesEnd(r, end);
  let next = end;
  for (let index = end; index < stop; index += 1) {
    const taken = attribute(r, use, index, stop);
    if (taken === undefined) continue;
    r.say(index, taken, 'product');
    next = taken;
    index = taken - 1;
  }
  (r.draft.products ??= []).push(use);
  r.say(at, end, `product ${product}`);
  for (let index = at; index < end; index += 1) r.taken.add(index);
  return Math.max(end, Math.min(next, end));
}

/** A semicolon does not end what is said of a product. */
function sentencesEnd(r: VisitReader, at: number): number {
  let end = r.end(at, false);
  while (r.items[end]?.bare === ';') end = r.end(end + 1, false);
  return end;
}

function attribute(r: VisitReader, use: ProductUse, at: number, stop: number): number | undefined {
  const { bare, is } = r.items[at]!;
  if (bare === 'batch' || bare === 'lot') {
    let next = at + 1;
    if (isOne('number', r.items[next]?.bare)) next += 1;
    let end = next + 1;
    while (
      end < stop &&
      r.items[end]!.glued &&
      r.items[end]!.kind !== 'mark' &&
      r.items[end]!.kind !== 'stop'
    )
      end += 1;
    if (r.items[next] === undefined || next >= stop) return undefined;
    use.batch =
      r.items[next]!.kind === 'quoted'
        ? r.items[next]!.bare
        : r.text.slice(r.items[next]!.from, r.items[end - 1]!.to);
    return end;
  }
  if (bare === 'class' && r.items[at + 1]?.is.has('product-class')) return attribute(r, use, at + 1, stop);
  if (is.has('product-class')) {
    use.class = is.get('product-class') as ProductClass;
    return at + 1;
  }
  const none = isOne('nil', bare) || r.items[at]!.number?.value === 0;
  const what = r.items[r.skip(at + 1, 'withdrawal')]?.bare;
  if (none && isOne('withheld', r.items[at + 1]?.bare)) {
    use['milk-days'] = 0;
    use['meat-days'] = 0;
    return at + 2;
  }
  if (none && (what === 'milk' || what === 'meat')) {
    use[`${what}-days`] = 0;
    return r.skip(at + 1) + 1;
  }
  if (bare === 'milk' || bare === 'meat') {
    const number = r.skip(at + 1, 'no withdrawal');
    const said = r.items[number];
    if (r.items.slice(at + 1, number).some((one) => one.bare === 'nil') || said?.number?.value === 0) {
      use[`${bare}-days`] = 0;
      return said?.number?.value === 0 ? number + 1 : number;
    }
    if (said?.span && said.span.months === 0) {
      use[`${bare}-days`] = said.span.days;
      return number + 1;
    }
    if (said?.number && isOne('hours', r.items[number + 1]?.bare) && bare === 'milk') {
      use['milk-hours'] = said.number.value;
      return number + 2;
    }
    return undefined;
  }
  if (bare === 'given' || is.has('pain-given')) {
    const by = r.items[r.skip(at + 1)];
    if (by?.person) {
      use['given-by'] = by.person.name;
      return r.skip(at + 1) + 1;
    }
  }
  if (r.items[at]!.person && r.items[at + 1]?.bare === 'did') {
    use['given-by'] = r.items[at]!.person.name;
    const end = r.skip(at + 2, 'spraying');
    return r.items[end]?.is.has('product') ? end + 1 : end;
  }
  return undefined;
}
