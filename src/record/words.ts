/**
 * The closed lists of the case format: the only words a file may use under these keys.
 * Each is spelled as it is written in a file. What they mean to a reader is in `shared/`.
 */
export const feet = ['LF', 'RF', 'LH', 'RH'] as const;
export type Foot = (typeof feet)[number];

export const claws = ['inner', 'outer'] as const;
export type Claw = (typeof claws)[number];

/** ICAR Claw Health Atlas codes; names in `shared/lesions.json`. */
export const lesionCodes = [
  'AC', 'BU', 'CC', 'CD', 'DD', 'DS', 'HFA', 'HFH', 'HFV', 'HHE', 'ID', 'IH', 'IP', 'SC', 'SH', 'SHC', 'SHD',
  'SU', 'SW', 'TN', 'TS', 'TU', 'WL', 'WLA', 'WLF',
] as const; // prettier-ignore
export type LesionCode = (typeof lesionCodes)[number];

export const sites = [
  'toe', 'white line fore', 'white line rear', 'sole', 'sole-heel junction', 'heel bulb', 'dorsal wall',
  'abaxial wall', 'axial wall', 'coronet', 'between claws', 'skin behind heels', 'skin in front',
] as const; // prettier-ignore
export type Site = (typeof sites)[number];

/** Where wall lengths run, coronet to ground. */
export const wallLines = ['dorsal', 'abaxial', 'heel', 'axial'] as const;
export type WallLine = (typeof wallLines)[number];

export const lesionStates = ['open', 'covered', 'healed', 'lasting', 'present'] as const;
export type LesionState = (typeof lesionStates)[number];

/** Digital dermatitis: M1 M2 M4.1 active, M3 M4 quiet, M0 healed. */
export const ddStages = ['M0', 'M1', 'M2', 'M3', 'M4', 'M4.1'] as const;
export type DdStage = (typeof ddStages)[number];

export const topFoundWords = ['seen', 'felt', 'higher'] as const;
export type TopFound = (typeof topFoundWords)[number];

export const tools = ['calliper', 'ruler', 'tape', 'photo', 'eye'] as const;
export type Tool = (typeof tools)[number];

export const signs = [
  'bleeding', 'pus', 'smell', 'loose horn', 'undermined', 'white line stretched', 'exposed corium', 'proud flesh',
  'soft horn', 'crumbly horn', 'necrosis', 'bone', 'swollen coronet', 'swollen heel', 'swollen above foot', 'heat',
  'toe turned up', 'not bearing', 'blisters', 'mouth sores',
] as const; // prettier-ignore
export type Sign = (typeof signs)[number];

/** Seen of the animal, not of a foot; by anybody, also told in a report. */
export const animalSigns = [
  'down', 'off feed', 'feverish', 'slobbering', 'bleeding not stopped', 'joint or tendon', 'maggots',
] as const; // prettier-ignore
export type AnimalSign = (typeof animalSigns)[number];

/** What a question to the vet or the answer may be about, beside lesions and marks by their names. */
export const aboutWords = [...feet, ...signs, ...animalSigns, 'lame'] as const;

export const visitKinds = ['first', 'recheck', 'routine', 'report', 'missed'] as const;
export type VisitKind = (typeof visitKinds)[number];

export const fixtureEvents = [
  'fitted',
  'already on',
  'checked',
  'worn',
  'replaced',
  'lost',
  'removed',
] as const;
/** What happened to a block or a wrap. */
export type FixtureEvent = (typeof fixtureEvents)[number];

export const carryingClawWords = ['sound', 'bruised', 'ulcer', 'rubbed'] as const;
export type CarryingClaw = (typeof carryingClawWords)[number];

export const blockMaterials = ['wood', 'plastic', 'rubber', 'shoe', 'other'] as const;
export type BlockMaterial = (typeof blockMaterials)[number];

export const productClasses = ['medicine', 'not a medicine', 'not sure'] as const;
export type ProductClass = (typeof productClasses)[number];

export const painReliefWords = [
  'given',
  'asked',
  'advised',
  'farm declined',
  'vet says none',
  'not lame',
] as const;
export type PainRelief = (typeof painReliefWords)[number];

export const farmTasks = [
  'wrap off', 'block watch', 'straw pen', 'short walk', 'keep out of footbath', 'score her walk', 'finish the course',
  'ring if worse',
] as const; // prettier-ignore
export type FarmTask = (typeof farmTasks)[number];

/** What a vet may do himself: what a farm may be asked to do, and work on the foot. */
export const vetTasks = [...farmTasks, 'block off', 'recheck'] as const;
export type VetTask = (typeof vetTasks)[number];

export const photoViews = [
  'sole', 'abaxial wall', 'axial wall', 'front', 'heel', 'between claws', 'whole foot', 'standing',
] as const; // prettier-ignore
export type PhotoView = (typeof photoViews)[number];

export const photoMoments = ['before', 'after'] as const;
/** Before or after the trim. */
export type PhotoMoment = (typeof photoMoments)[number];

export const episodeResults = [
  'sound', 'recovered, not lame', 'culled', 'sold', 'moved', 'died', 'put down', 'lost to follow-up',
] as const; // prettier-ignore
export type EpisodeResult = (typeof episodeResults)[number];

export const gaitScales = ['uk-0-3', 'sprecher-1-5', 'nz-0-3', 'us-1-3'] as const;
export type GaitScale = (typeof gaitScales)[number];

export const conditionScales = ['uk-1-5', 'us-1-5', 'ie-1-5', 'au-1-8', 'nz-1-10'] as const;
export type ConditionScale = (typeof conditionScales)[number];

export const housings = ['housed', 'grazed', 'mixed'] as const;
export type Housing = (typeof housings)[number];

export const hemispheres = ['north', 'south'] as const;
export type Hemisphere = (typeof hemispheres)[number];

export const languages = ['en-GB', 'en-US'] as const;
/** Languages of the list for a farm's staff, and of nothing else: what it says is in `shared/words/staff-….json`. */
export const staffLanguages = ['es', 'pl', 'ro'] as const;
export type StaffLanguage = (typeof staffLanguages)[number];
export type Language = (typeof languages)[number] | StaffLanguage;

export const papers = ['A4', 'Letter'] as const;
export type Paper = (typeof papers)[number];

export const sendForms = ['html', 'pdf', 'both'] as const;
export type SendForm = (typeof sendForms)[number];

export const copperForms = ['pentahydrate', 'anhydrous'] as const;
export type CopperForm = (typeof copperForms)[number];

/** Names of the intervals a business or a farm may set, in days; defaults in `shared/intervals.json`. */
export const intervalNames = [
  'block-look', 'block-look-overdue', 'block-off', 'block-off-overdue', 'wrap-off', 'wrap-off-overdue',
  'recheck-wall-second', 'recheck-wall-third', 'recheck-wall-later', 'recheck-wall-grace',
  'recheck-ulcer', 'recheck-ulcer-raw', 'recheck-ulcer-grace',
  'recheck-dermatitis-second', 'recheck-dermatitis-later', 'recheck-dermatitis-grace',
  'recheck-foul', 'recheck-foul-grace',
  'recheck-other', 'recheck-other-grace', 'gait-rescore', 'gait-rescore-overdue',
  'severe-look', 'severe-rescore', 'severe-rescore-overdue',
] as const; // prettier-ignore
export type IntervalName = (typeof intervalNames)[number];
