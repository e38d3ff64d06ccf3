declare module 'nspell' {
  import type { Dictionary } from 'dictionary-en';
  export default function nspell(dictionary: Dictionary): { correct(word: string): boolean };
}
