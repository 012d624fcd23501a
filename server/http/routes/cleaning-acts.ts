import { z } from "@hono/zod-openapi";
import { endLoadAct, recordProviderLoadAct, rememberLoadAct, startLoadAct } from "../../cases/load-acts.ts";
import {
  checkMachineAct,
  closeMachineAct,
  describeMachineAct,
  describeProgrammeAct,
  endProgrammeAct,
  wipePlaceAct,
} from "../../cases/machine-acts.ts";
import { findPropertyAct, giveBackPropertyAct } from "../../cases/property-acts.ts";
import { LOAD_OUTCOMES } from "../../domain/cleaning/load.ts";
import { MACHINE_SORTS } from "../../domain/cleaning/machine.ts";
import type {
  LoadId,
  MachineId,
  MemberId,
  PieceId,
  PlaceId,
  ProgrammeId,
  ProviderId,
} from "../../domain/ids.ts";
import { HOW_CLEANED } from "../../domain/pieces/piece-entries.ts";
import type { Role } from "../../domain/register/account.ts";
import { handledPieces, holder, id, instant, line, note, piecesKnownBy } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];
const evidence = z.enum(["scanned", "typed"]);
const load = id<LoadId>();
const machine = id<MachineId>();
const programme = id<ProgrammeId>();
const how = z.enum(HOW_CLEANED);
const temperature = z.object({ degrees: z.int().min(0).max(300), scale: z.enum(["F", "C"]) });
const minutes = z
  .int()
  .min(1)
  .max(24 * 60);

/** Machines, what ran in them, and what else belongs to cleaning. */
export const CLEANING_ACTS = [
  defineAct({
    command: "describeMachine",
    summary: "Describes a washer-extractor, dryer, cabinet or a basin for washing by hand, at its place",
    roles: BENCH,
    schema: z.object({
      id: machine,
      name: line(80),
      what: z.enum(MACHINE_SORTS),
      place: id<PlaceId>(),
      drumDiameterMm: z.int().min(100).max(3000).exactOptional(),
      mostGarments: z.int().min(1).max(100).exactOptional(),
    }),
    act: describeMachineAct,
  }),
  defineAct({
    command: "describeProgramme",
    summary: "Describes a programme of a machine; the usual one is what its card starts",
    roles: BENCH,
    schema: z.object({
      machine,
      id: programme,
      programme: z.object({
        name: line(80),
        how: how.exactOptional(),
        temperature: temperature.exactOptional(),
        detergentPhTenths: z.int().min(0).max(140).exactOptional(),
        extractionRpm: z.int().min(1).max(3000).exactOptional(),
        minutes: minutes.exactOptional(),
      }),
      usual: z.boolean(),
    }),
    act: describeProgrammeAct,
  }),
  defineAct({
    command: "endProgramme",
    summary: "Gives up a programme; loads that ran with it stay",
    roles: BENCH,
    schema: z.object({ machine, id: programme }),
    act: endProgrammeAct,
  }),
  defineAct({
    command: "checkMachine",
    summary: "Records that a machine was found in order or faulty",
    roles: BENCH,
    schema: z.object({
      machine,
      outcome: z.enum(["in order", "faulty"]),
      checkedAt: instant.exactOptional(),
      note: note.exactOptional(),
    }),
    act: checkMachineAct,
  }),
  defineAct({
    command: "closeMachine",
    summary: "Closes a machine that runs no load",
    roles: ["program manager"],
    schema: z.object({ machine }),
    act: closeMachineAct,
  }),
  defineAct({
    command: "wipePlace",
    summary: "Says that a place itself was cleaned, such as a bench that was wiped",
    roles: BENCH,
    schema: z.object({ place: id<PlaceId>(), evidence }),
    act: wipePlaceAct,
  }),
  defineAct({
    command: "startLoad",
    summary:
      "Puts pieces in a machine and starts a load; a programme over the limits needs the manager's reason",
    roles: BENCH,
    schema: z.object({
      load,
      machine,
      programme: programme.exactOptional(),
      pieces: piecesKnownBy(["scanned", "typed", "with its set"]),
      reason: note.exactOptional(),
    }),
    act: startLoadAct,
  }),
  defineAct({
    command: "endLoad",
    summary: "Ends a load as programmed, or says that it was aborted",
    roles: BENCH,
    schema: z.object({
      load,
      outcome: z.enum(LOAD_OUTCOMES),
      read: temperature.exactOptional(),
      note: note.exactOptional(),
    }),
    act: endLoadAct,
  }),
  defineAct({
    command: "rememberLoad",
    summary: "Writes down a load that nobody scanned: what came out of a machine at about some time",
    roles: BENCH,
    schema: z.object({
      load,
      machine,
      programme: programme.exactOptional(),
      pieces: handledPieces,
      about: instant,
      minutes: z
        .int()
        .min(0)
        .max(7 * 24 * 60),
      ranMinutes: minutes.exactOptional(),
      to: holder.exactOptional(),
    }),
    act: rememberLoadAct,
  }),
  defineAct({
    command: "recordProviderLoad",
    summary: "Writes down what a provider cleaned together, by its manifest",
    roles: BENCH,
    schema: z.object({
      load,
      provider: id<ProviderId>(),
      document: line(200),
      how,
      pieces: handledPieces,
      from: instant,
      to: instant,
    }),
    act: recordProviderLoadAct,
  }),
  defineAct({
    command: "findProperty",
    summary: "Keeps what was found in a piece's pockets, under a receipt",
    roles: BENCH,
    schema: z.object({ piece: id<PieceId>(), evidence, what: note }),
    act: findPropertyAct,
  }),
  defineAct({
    command: "giveBackProperty",
    summary: "Says that found property was given back",
    roles: BENCH,
    schema: z.object({
      piece: id<PieceId>(),
      receipt: line(20),
      to: id<MemberId>().exactOptional(),
      note: note.exactOptional(),
    }),
    act: giveBackPropertyAct,
  }),
] as const;
