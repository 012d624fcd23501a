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
  /** Given where something other than now was asked for, so that a fault leaves a way back. */
  readonly onNow?: (() => void) | undefined;
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
        actions={
          <>
            <Button onPress={asking.again}>{words.askAgain}</Button>
            {props.onNow ? (
              <Button weight="quiet" onPress={props.onNow}>
                {words.showNow}
              </Button>
            ) : null}
          </>
        }
      >
        {problem.detail}
      </Notice>
    </Sheet>
  );
}
