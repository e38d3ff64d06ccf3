import type { UpgradeStep } from './upgrade-step.js';

/**
 * The way from each version of the case format to the next, oldest first. There has been one version so far, so there
 * is no way to go yet; DEVELOPERS.md says how one is added.
 */
export const upgradeSteps: readonly UpgradeStep[] = [];
