import type { BlockEvent, FootFinding, ProductUse, WrapEvent } from '../../record/visit.js';
import type { Foot } from '../../record/words.js';
import { quoted } from './quoted.js';
import { inWords, writeGone } from './write-found.js';

const withNote = (text: string): string => `with note ${quoted(text)}`;
const dayOf = (on: string): string => (on === 'unknown' ? 'day unknown' : `on ${on}`);

/** `LH foot: lifted, heat`. */
export function writeFoot(foot: Foot, finding: FootFinding): string {
  const words = inWords<FootFinding>(
    {
      lifted: (yes) => (yes ? 'lifted' : 'not lifted'),
      gone: writeGone,
      signs: (signs) => signs.join(', '),
      note: withNote,
    },
    finding,
  );
  return `${foot} foot: ${words.join(', ')}`;
}

/** `block removed LH inner, carrying claw bruised`. */
export function writeBlock(block: BlockEvent): string {
  return inWords<BlockEvent>(
    {
      event: (event) => `block ${event}`,
      foot: () => `${block.foot} ${block.claw}`,
      // Said with the foot.
      claw: () => '',
      material: (material) => (material === 'other' ? 'other material' : material),
      on: dayOf,
      'carrying-claw': (claw) => `carrying claw ${claw}`,
      note: withNote,
    },
    block,
  ).join(', ');
}

/** `wrap fitted RH`. */
export function writeWrap(wrap: WrapEvent): string {
  return inWords<WrapEvent>(
    { event: (event) => `wrap ${event}`, foot: (foot) => foot, on: dayOf, note: withNote },
    wrap,
  ).join(', ');
}

/** `product "as on the label", class medicine, batch "K118", milk withheld 4 days`. */
export function writeProduct(use: ProductUse): string {
  return inWords<ProductUse>(
    {
      product: (text) => `product ${quoted(text)}`,
      active: (text) => `active ${quoted(text)}`,
      class: (word) => `class ${word}`,
      batch: (text) => `batch ${quoted(text)}`,
      amount: (text) => `amount ${quoted(text)}`,
      route: (text) => `route ${quoted(text)}`,
      lesion: (name) => `for lesion ${name}`,
      on: (day) => `given on ${day}`,
      until: (day) => `until ${day}`,
      'milk-days': (days) => `milk withheld ${days} days`,
      'milk-hours': (hours) => `milk withheld ${hours} hours`,
      'milk-milkings': (milkings) => `milk withheld ${milkings} milkings`,
      'milk-days-after-calving': (days) => `milk withheld after calving ${days} days`,
      'meat-days': (days) => `meat withheld ${days} days`,
      'given-by': (name) => `given by ${quoted(name)}`,
      'prescribed-by': (name) => `prescribed by ${quoted(name)}`,
      cost: (cost) => `cost ${cost}`,
      note: withNote,
    },
    use,
  ).join(', ');
}
