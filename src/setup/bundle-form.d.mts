/** The script of `growdown form`, out of its source, as one text. */
export function bundleForm(): Promise<string>;
