import type { Farm } from '../../record/farm.js';

/** Where it is: the farm's address, with its name before it where the address does not begin with it. */
export function placeOfFarm({ farm, address }: Farm): string {
  if (address === undefined) return farm;
  return address.startsWith(farm) ? address : `${farm}, ${address}`;
}
