/** The parts of a bag that are no payload, in order. Every bag of this program has these and no others. */
export const tagFiles = ['README.txt', 'bag-info.txt', 'bagit.txt', 'manifest-sha512.txt'] as const;
/** The checksums of the parts above. */
export const tagManifest = 'tagmanifest-sha512.txt';
/** What is kept lies under this folder. */
export const payload = 'data/';

/** RFC 8493, 2.1.1: nothing else may stand in it. */
export const bagitText = 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n';

/** What `bag-info.txt` says (RFC 8493, 2.2.2). */
export interface BagInfo {
  readonly sourceOrganization: string;
  readonly externalDescription: string;
  readonly externalIdentifier: string;
  readonly softwareAgent: string;
  /** YYYY-MM-DD. */
  readonly baggingDate: string;
}

/** What is under `data/`: how many bytes in how many files. */
export interface Oxum {
  readonly bytes: number;
  readonly files: number;
}

const labels = [
  'Source-Organization',
  'External-Description',
  'External-Identifier',
  'Bag-Software-Agent',
  'Bagging-Date',
  'Payload-Oxum',
] as const;

/** The one text of `bag-info.txt`: another that says the same is refused by the check. */
export function bagInfoText(info: BagInfo, oxum: Oxum): string {
  const values = [
    info.sourceOrganization,
    info.externalDescription,
    info.externalIdentifier,
    info.softwareAgent,
    info.baggingDate,
    `${oxum.bytes}.${oxum.files}`,
  ];
  return labels.map((label, index) => `${label}: ${oneLine(values[index]!)}\n`).join('');
}

/** What a `bag-info.txt` counts; undefined where it is not as `bagInfoText` writes it. */
export function readBagInfo(text: string): (Oxum & { readonly baggingDate: string }) | undefined {
  const form = new RegExp(`^${labels.map((label) => `${label}: (\\S[^\\r\\n]*)\\n`).join('')}$`);
  const [, , , , , baggingDate, oxum] = form.exec(text) ?? [];
  const [, bytes, files] = /^(\d{1,15})\.(\d{1,9})$/.exec(oxum ?? '') ?? [];
  if (baggingDate === undefined || bytes === undefined || files === undefined) return undefined;
  return { bytes: Number(bytes), files: Number(files), baggingDate };
}

/** A label's value takes one line; one left empty would be no value. */
function oneLine(value: string): string {
  return value.replaceAll(/\s+/g, ' ').trim() || 'not said';
}
