/** Reads or corrects the label of one piece, and binds a maker's barcode or an old number to it. */
import { useState } from "preact/hooks";
import type { PieceView } from "../../server/domain/piece-view.ts";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { Sheet } from "../look/page.tsx";
import { FORM_WORDS } from "../look/words-forms.ts";
import { ask } from "./ask.ts";
import { pieceName } from "./bench/describe-piece.ts";
import { isBindable } from "./forms/describe-draft.ts";
import { DescribeForm } from "./forms/describe-form.tsx";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { type Lists, loadLists } from "./forms/lists.ts";
import { NotForYou } from "./forms/not-for-you.tsx";
import { troubleByField } from "./forms/trouble-fields.ts";
import { type SendAct, useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { localMoment } from "./record/days.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = FORM_WORDS;

export type DescribeScreenProps = FormScreenProps & { readonly piece: string };

interface Loaded {
  readonly lists: Lists;
  readonly piece: PieceView;
}

export function DescribeScreen(props: DescribeScreenProps) {
  const asking = useAsked(() => load(props), props.piece);
  const { answer } = asking;
  const mayWrite = ["technician", "inspector", "program manager"].includes(props.me.role);
  return props.frame({
    verb: words.describe,
    second: words.describeSays,
    children: mayWrite ? (
      <>
        <Awaited asking={asking} what={words.thePiece} say={props.say} />
        {answer ? <DescribePage {...props} {...answer} again={asking.again} /> : null}
      </>
    ) : (
      <NotForYou />
    ),
  });
}

async function load({ client, piece }: DescribeScreenProps): Promise<Asked<Loaded>> {
  const [lists, seen] = await Promise.all([
    loadLists(client),
    ask(client.get("/api/pieces/{piece}", { params: { piece } })),
  ]);
  if ("problem" in lists) return lists;
  return "problem" in seen ? seen : { answer: { lists: lists.answer, piece: seen.answer } };
}

type PageProps = FormScreenProps & Loaded & { readonly again: () => void };

function DescribePage(props: PageProps) {
  const { piece, say, clock } = props;
  const sendAct = useActs(props.client);
  const sending = useSend();
  return (
    <Sheet>
      <h2 class="t-title">
        <a href={`/pieces/${piece.id}`}>{pieceName(piece, say)}</a>
      </h2>
      <DescribeForm
        // A piece that was written on meanwhile fills the form anew.
        key={piece.version}
        say={say}
        lists={props.lists}
        piece={piece}
        today={localMoment(clock.now, clock.timeZone).day}
        troubles={troubleByField(sending.problem)}
        onDescribe={async (command) => {
          if (await sending.send(() => sendAct("describePiece", command), words.described)) props.again();
        }}
      />
      <WrittenOrNot sending={sending} say={say} />
      <BindCode {...props} sendAct={sendAct} />
    </Sheet>
  );
}

function BindCode(props: PageProps & { readonly sendAct: SendAct }) {
  const { piece, say } = props;
  const [code, setCode] = useState("");
  const [isTried, setTried] = useState(false);
  const sending = useSend();
  const bind = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    if (!isBindable(code)) return;
    const text = code.trim();
    const command = { piece: piece.id, code: text };
    if (!(await sending.send(() => props.sendAct("bindForeignCode", command), words.bound(text)))) return;
    setTried(false);
    setCode("");
    props.again();
  };
  const bound = piece.foreignCodes.length > 0 ? words.codesBound(piece.foreignCodes.join(", ")) : "";
  return (
    <section class="page-section" aria-label={words.bindCode}>
      <h2 class="t-head">{words.bindCode}</h2>
      <p>{[words.bindSays, bound].filter(Boolean).join(" ")}</p>
      <form class="field-row" onSubmit={(event) => void bind(event)}>
        <TextField
          label={words.code}
          value={code}
          onInput={setCode}
          note={words.codeNote}
          problem={isTried && !isBindable(code) ? words.codeNeeded : undefined}
          mono
          scans="fill"
        />
        <Button type="submit">{words.bindCode}</Button>
      </form>
      <WrittenOrNot sending={sending} say={say} />
    </section>
  );
}
