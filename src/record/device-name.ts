/** Names Windows keeps for devices, whatever stands after a dot: nothing of that name can be made there. */
const deviceNames = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * Whether a name cannot be a file's or a folder's on Windows because a device has it.
 *
 * @example isDeviceName('nul.txt') // → true
 */
export function isDeviceName(name: string): boolean {
  return deviceNames.test(name.split('.')[0]!.trimEnd());
}
