import type { Phrase } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';
import { readAnimalSign, readCode, readCutBack, readJoined, readLifted, readSign, readSound, readStage, readState, readStateUnsaid, readTopFound, readWallAt, readYesNo } from './finding.js'; // prettier-ignore
import { readCarrying } from './carrying-claw.js';
import { readFixture, readMaterial } from './fixture.js';
import { readLength, readTool, readWallTool } from './length.js';
import { readProduct } from './product.js';
import { readAskFarm, readFarmDid, readRecheck, readVetDoes } from './request.js';
import { readCondition, readGait, readScoredBy, readWalks, readWeight } from './score.js';
import { readVet, readVetAnswer } from './vet.js';
import { readNew } from '../subject.js';
import { readAmended, readAt, readBy, readKind, readNote, readWhy, readWithNote } from './words-of-visit.js';
import { readAnswer, readPainRelief, readTrimmed } from './work.js';

/** Reads one statement from its first words on: the first token behind it, or undefined where the words say nothing by themselves. */
export type ReadStatement = (r: VisitReader, at: number, phrase: Phrase) => number | undefined;

/** Which reader takes a phrase of which kind. Kinds that are not here are read where they are asked for. */
export const statements: Readonly<Record<string, ReadStatement>> = {
  'first-met': readNew,
  length: readLength,
  tool: readTool,
  'wall-tool': readWallTool,
  state: readState,
  'state-unsaid': readStateUnsaid,
  stage: (r, at, { next }) => readStage(r, at, next),
  'top-found': readTopFound,
  'wall-at': readWallAt,
  'wall-lowered': readYesNo,
  infected: readYesNo,
  'ran-up': readYesNo,
  'opened-further': readYesNo,
  sign: readSign,
  'animal-sign': readAnimalSign,
  joined: readJoined,
  code: readCode,
  lifted: readLifted,
  sound: readSound,
  'cut-back': readCutBack,
  block: readFixture,
  wrap: readFixture,
  material: readMaterial,
  carrying: readCarrying,
  gait: readGait,
  walks: readWalks,
  'scored-by': readScoredBy,
  condition: readCondition,
  weight: readWeight,
  trimmed: readTrimmed,
  product: readProduct,
  'pain-relief': readPainRelief,
  vet: readVet,
  'vet-answer': readVetAnswer,
  'vet-does': readVetDoes,
  'ask-farm': readAskFarm,
  'farm-did': readFarmDid,
  recheck: readRecheck,
  kind: readKind,
  why: readWhy,
  by: readBy,
  at: readAt,
  'tools-disinfected': readAnswer,
  'saw-expected': readAnswer,
  amended: readAmended,
  'with-note': readWithNote,
  note: readNote,
};
