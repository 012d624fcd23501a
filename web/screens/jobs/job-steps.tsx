/** How far a job is, with the way to end it; and why it did not do its work. */
import type { Client } from "../../api/client.ts";
import type { JobOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { ProgressStitches } from "../../look/progress-stitches.tsx";
import { Reasons } from "../../look/reasons.tsx";
import { Spoken } from "../../look/spoken-text.tsx";
import type { Words } from "../../look/words.ts";
import { isOpen } from "./use-job.ts";

export interface JobStepsProps {
  readonly client: Client;
  readonly job: JobOnWire;
  /** What each step is called on this page. */
  readonly steps: Readonly<Record<string, string>>;
  readonly stopLabel: string;
}

export function JobSteps(props: JobStepsProps) {
  const { client, job, steps } = props;
  if (!isOpen(job)) return null;
  return (
    <section aria-live="polite">
      <ProgressStitches
        label={steps[job.step] ?? steps["starting"] ?? job.step}
        done={job.done}
        total={job.total}
      />
      <Button
        weight="quiet"
        onPress={() => void client.post("/api/jobs/{id}/cancel", { params: { id: job.id }, body: {} })}
      >
        {props.stopLabel}
      </Button>
    </section>
  );
}

/** Says every reason why a job did not do its work. */
export function JobReasons(props: {
  readonly head: string;
  readonly say: Words;
  readonly reasons: JobOnWire["reasons"];
}) {
  return (
    <Reasons
      head={props.head}
      nextWord={props.say.next}
      reasons={props.reasons.map(({ what, why, next }, at) => ({
        ...{ key: String(at), mark: "differs" as const, why: <Spoken text={why} />, next },
        what: <Spoken text={what} />,
      }))}
    />
  );
}
