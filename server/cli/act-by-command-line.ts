import { drawId } from "../cases/import-register.ts";
import type { OnProgress } from "../cases/progress.ts";
import type { ActEnvelope } from "../cases/run-act.ts";
import { SYSTEM_ACCOUNT } from "../cases/system-account.ts";
import type { ActId } from "../domain/ids.ts";
import type { Instant } from "../domain/time.ts";
import type { JobProgress, JobSetting } from "../jobs/job-order.ts";
import type { House, OpenHouse } from "./command.ts";

/** An act by the command line: nobody is signed in, so the record says that Layertrail itself wrote it here. */
export function envelopeHere(nowMs: number): ActEnvelope {
  const at = nowMs as Instant;
  return {
    ...{ id: drawId<ActId>(nowMs), by: SYSTEM_ACCOUNT, role: "program manager" },
    ...{ device: "command line", deviceSeq: 0, appBuild: "command line", at, atOffsetMin: 0, sentAt: at },
  };
}

const PHASES: Readonly<Record<string, Parameters<OnProgress>[0]["phase"]>> = {
  "reading the file": "characters",
  writing: "rows",
  drawing: "tags",
};

/** Lets long work run here and now, with its progress on the terminal. */
export function settingHere({ db }: Pick<OpenHouse, "db">, house: House): JobSetting {
  return {
    db,
    now: house.now,
    onProgress({ step, done, total }: JobProgress) {
      const phase = PHASES[step];
      if (phase) house.progress({ phase, done, total });
    },
  };
}
