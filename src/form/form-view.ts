import type { FormPart } from '../record/key.js';

/** Page data of the forms: every string worded, nothing left for the template to work out. */
export interface OptionView {
  readonly value: string;
  readonly label: string;
  readonly chosen: boolean;
}

/** Pictures already sent up with a form that came back. */
export interface HeldView {
  readonly held: string;
  readonly says: string;
  readonly drop: string;
}

/** One field as it is shown. `options` is empty and `value` a text where the answer is typed. */
export interface FieldView {
  readonly show: 'radios' | 'select' | 'checks' | 'typed' | 'lines' | 'group' | 'picture' | 'hidden';
  readonly name: string;
  readonly label: string;
  readonly trouble: string;
  readonly type: 'text' | 'date' | 'time';
  /** What keys a phone offers; empty: all. */
  readonly keys: 'decimal' | '';
  readonly unit: string;
  readonly value: string;
  readonly options: readonly OptionView[];
  /** What is for no answer among the options. */
  readonly notSaid: string;
  readonly fields: readonly FieldView[];
  /** Of a lesion seen before: says again how it stood and was read. */
  readonly last?: OptionView;
  /** Of a block or wrap known to be on her. */
  readonly onHer?: true;
  readonly more: readonly FieldView[];
  readonly moreLabel: string;
  readonly moreOpen: boolean;
  /** A group, or a long list of words, shown folded under its own name. */
  readonly folded: boolean;
  readonly open: boolean;
  readonly held: readonly HeldView[];
  readonly camera: string;
  readonly phone: string;
}

export interface PartView {
  readonly part: FormPart;
  readonly heading: string;
  readonly fields: readonly FieldView[];
  readonly open: boolean;
  /** It can be shown again with more blank entries. */
  readonly hasRoom: boolean;
}

/** Of the form in one file alone: whether the browser keeps what is typed, and loudly where it does not. */
interface Kept {
  readonly keeps?: string;
  readonly keepsNot?: string;
}

/** The form of a visit, served or in one file. */
export interface VisitView extends Kept {
  readonly heading: string;
  readonly back: string;
  readonly backTo: string;
  readonly identity: readonly string[];
  readonly last: string;
  /** Of many lines all but two are folded under `moreLabel`. */
  readonly due: Readonly<Record<'heading' | 'moreLabel', string>> & { readonly lines: readonly string[] };
  /** A visit that was written down is changed, and the way to another. */
  readonly change?: string;
  readonly another?: string;
  readonly how: readonly string[];
  readonly problems:
    | {
        readonly says: string;
        readonly list: readonly { readonly text: string; readonly field: string }[];
      }
    | '';
  /** What is usual. */
  readonly parts: readonly PartView[];
  /** What is rare, folded. */
  readonly folds: readonly PartView[];
  readonly send: string;
  readonly moreRoom: string;
  readonly moreRoomSays: string;
}

export interface VisitPage extends VisitView {
  readonly page: 'visit';
  readonly language: string;
  readonly title: string;
  /** Visits sent today that may be changed. */
  readonly sent: readonly { readonly to: string; readonly says: string }[];
  /** A visit that came back may be kept as it is; `value` holds what was asked about. */
  readonly keep: { readonly says: string; readonly value: string } | '';
  readonly form: string;
}

export interface LinkView {
  readonly to: string;
  readonly name: string;
  readonly lines: readonly string[];
  readonly loud: string;
  /** Said quietly of a visit that is written down. */
  readonly stands?: string;
}

/** A place to go on to. */
export function linkTo(to: string, name: string, lines: readonly string[] = [], loud = ''): LinkView {
  return { to, name, lines, loud };
}

interface LinkGroup {
  readonly heading: string;
  readonly links: readonly LinkView[];
  readonly empty: string;
  readonly kind?: 'out' | 'small';
}

/** A list of places to go on to, served or in one file. */
export interface ListView extends Kept {
  readonly heading: string;
  /** What has just been done. */
  readonly done?: string;
  readonly notes: readonly string[];
  readonly groups: readonly LinkGroup[];
}

/** Farms, or animals. */
export interface ListPage extends ListView {
  readonly page: 'list';
  readonly language: string;
  readonly title: string;
  readonly back: string;
}

/** The visits of the form in one file as one text, empty where none is written down. */
export interface TextView extends Kept {
  readonly heading: string;
  readonly back: string;
  readonly text: string;
  readonly empty: string;
  readonly how: string;
  readonly copy: string;
  readonly download: string;
  readonly label: string;
  readonly groups: readonly LinkGroup[];
  readonly clear: string;
  readonly clearSays: string;
  readonly clearNow: string;
}

/** What became of a sending, or why it could not be taken. */
export interface SaidPage {
  readonly page: 'said';
  readonly language: string;
  readonly title: string;
  readonly heading: string;
  readonly lines: readonly string[];
  readonly facts: readonly { readonly label: string; readonly value: string }[];
  /** What was read before, and what was expected. */
  readonly before: { readonly heading: string; readonly lines: readonly string[] };
  readonly links: readonly LinkView[];
}

export type FormPage = VisitPage | ListPage | SaidPage;
