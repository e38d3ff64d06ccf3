/** The files of `shared/` that are made from the face's package, by name. */
export function cutFace(): Promise<Record<string, Uint8Array | string>>;
