import { z } from "@hono/zod-openapi";
import { readFoundProperty, readMachinePage, readMachineRan } from "../../cases/machine-pages.ts";
import { viewMachines } from "../../cases/machine-views.ts";
import { loadsCsv } from "../../domain/cleaning/loads-csv.ts";
import type {
  FoundPropertyView,
  MachinePage,
  MachineRan,
  MachineView,
} from "../../domain/cleaning/machine-view.ts";
import type { MachineId } from "../../domain/ids.ts";
import type { Role } from "../../domain/register/account.ts";
import { answerCsv } from "../answer-file.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { shown } from "../shown.ts";
import { id, instant } from "../wire.ts";

/** Who works with machines, and who looks into what they ran. */
const LOOKS: readonly Role[] = ["technician", "inspector", "program manager", "reader"];

const machines = shown<{ readonly machines: readonly MachineView[] }>("Machines", "Open machines, by name.");
const machinePage = shown<MachinePage>("MachinePage", "A machine with its programmes and checks.");
const machineRan = shown<MachineRan>("MachineRan", "What a machine ran, with the pieces and where they are.");

const property = shown<{ readonly property: readonly FoundPropertyView[] }>(
  "FoundProperty",
  "What was found in gear, what is still kept first.",
);

const params = z.object({ machine: id<MachineId>() });
const query = z.object({
  "found-faulty-at": instant.optional().openapi({
    description: "Asks for what it ran from its last good check before this moment to the next one after",
  }),
});
const NO_MACHINE = "No open machine has this id. Next: choose one on the page Machines.";

export const machineRoutes = [
  defineRoute(
    { method: "get", path: "/api/machines", roles: LOOKS, summary: "Open machines", answer: machines },
    async ({ services: { db } }) => ({ machines: await viewMachines(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/machines/{machine}",
      roles: LOOKS,
      summary: "A machine with its programmes and checks",
      params,
      answer: machinePage,
    },
    async ({ params: { machine }, services: { db } }) => {
      const page = await readMachinePage(db, machine);
      if (page) return page;
      throw problem("not-found", NO_MACHINE);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/machines/{machine}/loads",
      roles: LOOKS,
      summary: "What a machine ran: all of it, or between the good checks around a moment when it was faulty",
      params,
      query,
      answer: machineRan,
    },
    async ({ params: { machine }, query: asked, services: { db } }) => {
      const ran = await readMachineRan(db, machine, asked["found-faulty-at"]);
      if (ran) return ran;
      throw problem("not-found", NO_MACHINE);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/machines/{machine}/loads.csv",
      roles: LOOKS,
      summary: "What a machine ran, as CSV, one row a piece",
      params,
      query,
      answerType: "text/csv",
    },
    async ({ params: { machine }, query: asked, services: { db } }) => {
      const ran = await readMachineRan(db, machine, asked["found-faulty-at"]);
      if (ran) return answerCsv(`${ran.machine.name} loads.csv`, loadsCsv(ran));
      throw problem("not-found", NO_MACHINE);
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/found-property",
      roles: ["technician", "inspector", "program manager"],
      summary: "What was found in the pockets of gear, with its receipts",
      answer: property,
    },
    async ({ services: { db } }) => ({ property: await readFoundProperty(db) }),
  ),
] as const;
