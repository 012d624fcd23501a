import { useEffect, useRef, useState } from "preact/hooks";
import type { Trouble } from "../../api/answer.ts";
import type { Asked } from "../sign-in-screen.tsx";

/** How long an answer may take before the page says that it asks, and that it takes long. Source: look guide, section 4. */
const ASKING_AFTER_MS = 400;
const SLOW_AFTER_MS = 2_000;

export interface Asking<Answer> {
  /** The last answer; it stays until the next one comes, and goes when asking fails. */
  readonly answer?: Answer | undefined;
  readonly problem?: Trouble | undefined;
  readonly waiting: "not yet" | "asking" | "slow";
  readonly again: () => void;
}

/** Asks when the page is shown, when `key` changes, and when told to. An answer to an older question is dropped. */
export function useAsked<Answer>(ask: () => Promise<Asked<Answer>>, key: string): Asking<Answer> {
  const [told, setTold] = useState<Pick<Asking<Answer>, "answer" | "problem">>({});
  const [waiting, setWaiting] = useState<Asking<Answer>["waiting"]>("not yet");
  const [round, setRound] = useState(0);
  const latest = useRef(ask);
  latest.current = ask;
  useEffect(() => {
    let isCurrent = true;
    const timers = [
      setTimeout(() => setWaiting("asking"), ASKING_AFTER_MS),
      setTimeout(() => setWaiting("slow"), SLOW_AFTER_MS),
    ];
    const end = () => {
      isCurrent = false;
      timers.forEach(clearTimeout);
      setWaiting("not yet");
    };
    void latest.current().then((asked) => {
      if (!isCurrent) return;
      setTold("answer" in asked ? { answer: asked.answer } : { problem: asked.problem });
      end();
    });
    return end;
  }, [key, round]);
  return { ...told, waiting, again: () => setRound(round + 1) };
}
