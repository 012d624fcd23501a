/** Print runs, what goes on their labels and cards, and their files, for the rooms that may not import the store. */
export { actionCards, badges, type CardHolder, memberCards, placeCards } from "../store/cards-to-print.ts";
export {
  findRun,
  insertRun,
  keepPrintFile,
  keepRunNumbers,
  listRuns,
  type PieceToPrint,
  type PrintRunOnRecord,
  piecesToPrint,
  printFileBytes,
  runNumbers,
  tagsByNumber,
} from "../store/print-runs.ts";
export {
  findPiecesByWords,
  listUntagged,
} from "../store/untagged-pieces.ts";
