/** Prints tags: chosen, the cautions read, drawn, looked at, printed. The address names the run, so that one can come back. */
import { useState } from "preact/hooks";
import { PRINT_WORDS } from "../../look/words-print.ts";
import { ask } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { NotForYou } from "../forms/not-for-you.tsx";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { ChooseTags } from "./choose-tags.tsx";
import { DrawnRun } from "./drawn-run.tsx";

const words = PRINT_WORDS;

export function mayPrint({ me }: FormScreenProps): boolean {
  return ["technician", "inspector", "program manager"].includes(me.role);
}

export function PrintTagsScreen(props: FormScreenProps) {
  const { client, say } = props;
  const asking = useAsked(() => ask(client.get("/api/print-options")), "options");
  const [run, setRun] = useState(() => new URLSearchParams(location.search).get("run") ?? undefined);
  // Another run begins with the pieces that this page was opened for: one that did not fit is tried otherwise.
  const [asked] = useState(() => (run ? "" : location.search));
  const open = (id: string | undefined) => {
    history.replaceState(null, "", id ? `/tags?run=${id}` : `/tags${asked}`);
    setRun(id);
  };
  const options = asking.answer;
  return props.frame({
    verb: say.printTags,
    second: words.tagsSay,
    children: !mayPrint(props) ? (
      <NotForYou />
    ) : (
      <>
        <Awaited asking={asking} what={words.theOptions} say={say} />
        {options && run ? (
          <DrawnRun key={run} {...props} options={options} run={run} onOpen={open} />
        ) : options ? (
          <ChooseTags {...props} options={options} onRun={open} />
        ) : null}
      </>
    ),
  });
}
