import { useEffect, useRef, useState } from "preact/hooks";
import type { Client } from "../../api/client.ts";
import type { JobOnWire } from "../../api/wire.ts";

/** How often a job is asked after: often while it is young, since most end within a second. */
const ASK_AGAIN_MS = [150, 300, 500, 1_000] as const;

export function isOpen(job: Pick<JobOnWire, "state">): boolean {
  return job.state === "waiting" || job.state === "running";
}

/** Follows a job until it ends, over a network that comes and goes. Tells once when it has ended. */
export function useJob(
  client: Client,
  id: string | undefined,
  onEnd: (job: JobOnWire) => void,
): JobOnWire | undefined {
  const [job, setJob] = useState<JobOnWire>();
  const told = useRef(onEnd);
  told.current = onEnd;
  useEffect(() => {
    setJob(undefined);
    if (id === undefined) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let isCurrent = true;
    const ask = async (round: number) => {
      const answer = await client.get("/api/jobs/{id}", { params: { id } });
      if (!isCurrent) return;
      if (answer.ok) setJob(answer.answer);
      if (answer.ok && !isOpen(answer.answer)) return told.current(answer.answer);
      timer = setTimeout(() => void ask(round + 1), ASK_AGAIN_MS[Math.min(round, ASK_AGAIN_MS.length - 1)]);
    };
    void ask(0);
    return () => {
      isCurrent = false;
      clearTimeout(timer);
    };
  }, [id]);
  return job;
}
