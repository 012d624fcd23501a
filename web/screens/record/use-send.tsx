/** Sends an act of a form: once at a time, with what became of it said where the form stands. */
import { useRef, useState } from "preact/hooks";
import { sayPhrase } from "../../../server/domain/phrase.ts";
import { phraseRefusal } from "../../../server/domain/refusal-words.ts";
import type { Trouble } from "../../api/answer.ts";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import type { Asked } from "../sign-in-screen.tsx";

export interface Sending {
  readonly written: string | undefined;
  readonly problem: Trouble | undefined;
  /** Sends and tells whether it was written. A second press while the first is on its way does nothing. */
  readonly send: (act: () => Promise<Asked<unknown>>, says: string) => Promise<boolean>;
}

export function useSend(): Sending {
  const [told, setTold] = useState<Pick<Sending, "written" | "problem">>({
    ...{ written: undefined, problem: undefined },
  });
  const isSending = useRef(false);
  const send: Sending["send"] = async (act, says) => {
    if (isSending.current) return false;
    isSending.current = true;
    const asked = await act();
    isSending.current = false;
    const isWritten = "answer" in asked;
    setTold({
      written: isWritten ? says : undefined,
      problem: "problem" in asked ? asked.problem : undefined,
    });
    return isWritten;
  };
  return { ...told, send };
}

export function WrittenOrNot(props: { readonly sending: Sending; readonly say: Words }) {
  const { written, problem } = props.sending;
  if (problem) {
    return (
      <Notice kind="fault" head={props.say.notWritten} live="assertive">
        {problemSays(problem)}
      </Notice>
    );
  }
  return written ? <Notice kind="done" head={written} /> : null;
}

/** Says a problem whole: every reason of a refused act, or the detail of any other trouble. */
export function problemSays(problem: Trouble): string {
  const { refusals, names = {} } = problem;
  if (!refusals || refusals.length === 0) return `${problem.title} ${problem.detail}`;
  return refusals.map((refusal) => sayPhrase(phraseRefusal(refusal, names))).join(" ");
}
