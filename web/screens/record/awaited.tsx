/** Shows that an answer is awaited or did not come; what did come is drawn by the page itself. */
import { Button } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import type { Words } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import type { Asking } from "./use-asked.ts";

export interface AwaitedProps {
  readonly asking: Pick<Asking<unknown>, "problem" | "waiting" | "again">;
  /** What is asked for: "the trail". */
  readonly what: string;
  readonly say: Words;
}

export function Awaited(props: AwaitedProps) {
  const { asking, what } = props;
  const words = RECORD_WORDS;
  if (asking.waiting !== "not yet") {
    return (
      <Sheet>
        <Notice kind="waiting" head={words.asking(what)}>
          {asking.waiting === "slow" ? words.slow : ""}
        </Notice>
      </Sheet>
    );
  }
  const { problem } = asking;
  if (!problem) return null;
  return (
    <Sheet>
      <Notice
        kind="fault"
        head={`${words.notShown} ${problem.title}`}
        live="assertive"
        actions={<Button onPress={asking.again}>{words.askAgain}</Button>}
      >
        {problem.detail}
      </Notice>
    </Sheet>
  );
}
