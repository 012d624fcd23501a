/** One run: drawn, its files shown and saved, and the word that it was printed. */
import { useEffect, useState } from "preact/hooks";
import type { Trouble } from "../../api/answer.ts";
import type { PrintOptionsOnWire, PrintRunOnWire } from "../../api/wire.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";
import { ask } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { JobReasons, JobSteps } from "../jobs/job-steps.tsx";
import { isOpen, useJob } from "../jobs/use-job.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { DrawAgain } from "./draw-again.tsx";
import { RunFiles } from "./run-files.tsx";

const words = PRINT_WORDS;

export type DrawnRunProps = FormScreenProps & {
  readonly options: PrintOptionsOnWire;
  readonly run: string;
  readonly onOpen: (run: string | undefined) => void;
};

export function DrawnRun(props: DrawnRunProps) {
  const { client, run, say } = props;
  const asking = useAsked(() => ask(client.get("/api/print-runs/{id}", { params: { id: run } })), run);
  const { answer } = asking;
  const [job, setJob] = useState<string>();
  const newest = answer?.job;
  useEffect(() => {
    if (newest && isOpen(newest)) setJob(newest.id);
  }, [newest?.id]);
  const followed = useJob(client, job, () => {
    setJob(undefined);
    asking.again();
  });
  const working = followed && isOpen(followed) ? followed : undefined;
  return (
    <>
      <Awaited
        asking={answer && job ? { ...asking, waiting: "not yet" } : asking}
        what={words.files}
        say={say}
      />
      {answer ? (
        <Sheet>
          {working ? (
            <JobSteps client={client} job={working} steps={words.steps} stopLabel={words.stopIt} />
          ) : null}
          {job ? null : <SettledRun {...props} seen={answer} onJob={setJob} />}
        </Sheet>
      ) : null}
    </>
  );
}

type SettledProps = DrawnRunProps & {
  readonly seen: PrintRunOnWire;
  readonly onJob: (job: string) => void;
};

function SettledRun(props: SettledProps) {
  const { client, seen, say, onJob, onOpen } = props;
  const [wrong, setWrong] = useState<Trouble>();
  const { job, files, states } = seen;
  const waiting = states.reserved ?? 0;
  const markPrinted = async () => {
    const body = client.newOrder({});
    const answer = await client.post("/api/print-runs/{id}/printed", { params: { id: seen.id }, body });
    if (answer.ok) onJob(answer.answer.job);
    else setWrong(answer.problem);
  };
  return (
    <>
      {job?.state === "cancelled" ? <Notice kind="empty" head={words.stopped} /> : null}
      {job && job.reasons.length > 0 ? (
        <JobReasons head={words.notDrawn} say={say} reasons={job.reasons} />
      ) : null}
      {files.length > 0 ? (
        <Notice
          kind="done"
          head={seen.what === "tags" ? words.drawn(seen.count) : words.cardsDrawn(seen.count)}
        >
          {words.runStates(states)}
        </Notice>
      ) : null}
      <RunFiles client={client} run={seen} steps={props.options.steps} />
      {wrong ? (
        <Notice kind="fault" head={wrong.title} live="assertive">
          {wrong.detail}
        </Notice>
      ) : null}
      {seen.what === "tags" && files.length > 0 && waiting > 0 ? (
        <div class="page-section">
          <Button onPress={() => void markPrinted()}>{words.printed}</Button>
          <p class="t-second">{words.printedSays}</p>
        </div>
      ) : null}
      {seen.what === "tags" && (states.printed ?? 0) > 0 && waiting === 0 ? (
        <Notice
          kind="done"
          head={words.wasPrinted(states.printed ?? 0)}
          actions={<ButtonLink href="/">{words.attachLink}</ButtonLink>}
        />
      ) : null}
      <DrawAgain {...props} />
      <p class="page-section">
        <Button weight="quiet" onPress={() => onOpen(undefined)}>
          {words.anotherRun}
        </Button>
      </p>
    </>
  );
}
