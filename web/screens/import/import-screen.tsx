/** Brings in a file: chosen, read, looked at, written as one act. The address names the file, so that one can come back. */
import { useEffect, useState } from "preact/hooks";
import type { ImportOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { IMPORT_WORDS } from "../../look/words-import.ts";
import { ask } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { NotForYou } from "../forms/not-for-you.tsx";
import { JobReasons, JobSteps } from "../jobs/job-steps.tsx";
import { isOpen, useJob } from "../jobs/use-job.ts";
import { Awaited } from "../record/awaited.tsx";
import { sayStamp } from "../record/days.ts";
import { useAsked } from "../record/use-asked.ts";
import { BroughtInNow } from "./brought-in-now.tsx";
import { ChooseFile, mayBringIn } from "./choose-file.tsx";
import { PreviewOfFile } from "./preview-of-file.tsx";

const words = IMPORT_WORDS;

export function ImportScreen(props: FormScreenProps) {
  const [file, setFile] = useState(() => new URLSearchParams(location.search).get("file") ?? undefined);
  const [stage, setStage] = useState<string>(words.saysChoose);
  const open = (id: string | undefined) => {
    history.replaceState(null, "", id ? `/import?file=${id}` : "/import");
    setFile(id);
    setStage(words.saysChoose);
  };
  return props.frame({
    verb: props.say.bringIn,
    second: stage,
    children: !mayBringIn(props.me.role) ? (
      <NotForYou />
    ) : file === undefined ? (
      <ChooseFile {...props} onArrived={open} />
    ) : (
      <OneFile key={file} {...props} file={file} onStage={setStage} onLeave={() => open(undefined)} />
    ),
  });
}

type OneFileProps = FormScreenProps & {
  readonly file: string;
  readonly onStage: (says: string) => void;
  readonly onLeave: () => void;
};

function OneFile(props: OneFileProps) {
  const { client, file, say } = props;
  const asking = useAsked(() => ask(client.get("/api/imports/{id}", { params: { id: file } })), file);
  const { answer } = asking;
  const [job, setJob] = useState<string>();
  const [isOurs, setOurs] = useState(false);
  const newest = answer?.job;
  useEffect(() => {
    if (newest && isOpen(newest)) setJob(newest.id);
  }, [newest?.id]);
  const followed = useJob(client, job, () => {
    setJob(undefined);
    asking.again();
  });
  const working = followed && isOpen(followed) ? followed : undefined;
  const isWorking = job !== undefined;
  const stage = isWorking ? words.saysWorking : answer?.broughtIn ? words.saysDone : words.saysPreview;
  useEffect(() => props.onStage(stage), [stage]);
  return (
    <>
      <Awaited
        asking={answer && isWorking ? { ...asking, waiting: "not yet" } : asking}
        what={words.file}
        say={say}
      />
      {answer ? (
        <Sheet>
          <h2 class="t-title">{answer.name}</h2>
          {working ? (
            <JobSteps client={client} job={working} steps={words.steps} stopLabel={words.stopIt} />
          ) : null}
          {isWorking ? null : (
            <Settled
              {...props}
              seen={answer}
              isOurs={isOurs}
              onJob={(started, isWriting) => {
                setOurs(isWriting);
                setJob(started);
              }}
            />
          )}
        </Sheet>
      ) : null}
    </>
  );
}

type SettledProps = OneFileProps & {
  readonly seen: ImportOnWire;
  /** Whether it was brought in from here just now, and not at some earlier time. */
  readonly isOurs: boolean;
  readonly onJob: (job: string, isWriting: boolean) => void;
};

function Settled(props: SettledProps) {
  const { seen, say, clock, onLeave } = props;
  const { job, preview, broughtIn } = seen;
  if (broughtIn && (props.isOurs || job?.state === "done") && job?.what === "bring in file") {
    return <BroughtInNow seen={seen} file={broughtIn} say={say} onAnother={onLeave} />;
  }
  if (broughtIn) {
    const when = sayStamp(Date.parse(broughtIn.at), clock.timeZone);
    const rows = words.rowsIn(broughtIn.accepted, broughtIn.parked);
    return (
      <Notice kind="empty" head={words.known} actions={<Button onPress={onLeave}>{words.another}</Button>}>
        {words.knownSays(broughtIn.by, when, rows)}
      </Notice>
    );
  }
  return (
    <>
      {job?.state === "cancelled" ? <Notice kind="empty" head={words.stopped} /> : null}
      {job && job.reasons.length > 0 ? (
        <JobReasons
          head={job.what === "read file" ? words.notRead : words.notBroughtIn}
          say={say}
          reasons={job.reasons}
        />
      ) : null}
      {preview ? <PreviewOfFile {...props} preview={preview} /> : null}
      <p class="page-section">
        <Button weight="quiet" onPress={onLeave}>
          {words.another}
        </Button>
      </p>
    </>
  );
}
