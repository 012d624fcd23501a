/** What was found in pockets: a receipt is written and printed, and what is given back says so. */
import { useState } from "preact/hooks";
import type { FoundPropertyView } from "../../server/domain/cleaning/machine-view.ts";
import type { PieceView } from "../../server/domain/piece-view.ts";
import { Button } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { midSentence } from "../look/words.ts";
import { CLEANING_WORDS } from "../look/words-cleaning.ts";
import { load } from "./ask.ts";
import { pieceName, sayWhen } from "./bench/describe-piece.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";

const words = CLEANING_WORDS;

export type PropertyScreenProps = FormScreenProps & { readonly piece: string | undefined };

export function PropertyScreen(props: PropertyScreenProps) {
  const asking = useAsked(
    () => load<{ property: readonly FoundPropertyView[] }>(props.client, "/api/found-property"),
    "property",
  );
  return props.frame({
    verb: words.foundProperty,
    second: words.foundPropertySays,
    children: (
      <>
        <Awaited asking={asking} what={words.theProperty} say={props.say} />
        {asking.answer ? (
          <PropertyPage {...props} property={asking.answer.property} again={asking.again} />
        ) : null}
      </>
    ),
  });
}

/** What was written last stands open, so that its receipt can be printed at once. */
const NEWEST = "newest";

type PageProps = PropertyScreenProps & {
  readonly property: readonly FoundPropertyView[];
  readonly again: () => void;
};

function PropertyPage(props: PageProps) {
  const { property, say, clock } = props;
  const sendAct = useActs(props.client);
  const sending = useSend();
  const [open, setOpen] = useState<string>();
  const when = (at: string) => sayWhen(at, clock.now, clock.timeZone);
  const kept = property.filter(({ givenBackAt }) => givenBackAt === undefined);
  const shown = open === NEWEST ? kept[0] : property.find(({ receipt }) => receipt === open);
  const back = property.filter(({ givenBackAt }) => givenBackAt !== undefined);
  const giveBack = async ({ piece, receipt }: FoundPropertyView) => {
    const body = { piece, receipt } as never;
    if (await sending.send(() => sendAct("giveBackProperty", body), words.givenBack)) props.again();
  };
  return (
    <Sheet>
      <WrittenOrNot sending={sending} say={say} />
      {props.piece ? (
        <FindForm
          {...props}
          piece={props.piece}
          onFound={async (piece, what) => {
            const body = { piece, evidence: "typed", what } as never;
            if (!(await sending.send(() => sendAct("findProperty", body), words.receiptWritten))) return;
            setOpen(NEWEST);
            props.again();
          }}
        />
      ) : null}
      {shown ? (
        <Receipt {...shown} when={when(shown.foundAt)} onGiveBack={() => void giveBack(shown)} />
      ) : null}
      <section class="page-section">
        <h2 class="t-head">{words.stillKept}</h2>
        {kept.length === 0 ? (
          <Notice kind="empty" head={words.nothingKept} live="off">
            {words.nothingKeptNext}
          </Notice>
        ) : null}
        <ListRows
          label={words.stillKept}
          rows={kept.map((one) => ({
            key: one.receipt,
            main: `${words.receipt(one.receipt)}: ${one.what}`,
            second: `${words.foundIn(one.kind)}${one.number ? ` ${one.number.replace(/(.{4})(?=.)/g, "$1 ")}` : ""}, ${when(one.foundAt)}`,
            current: one === shown,
            onPress: () => setOpen(one.receipt),
          }))}
        />
      </section>
      {back.length > 0 ? (
        <section class="page-section">
          <h2 class="t-head">{words.givenBack}</h2>
          <ListRows
            label={words.givenBack}
            rows={back.map((one) => ({
              key: one.receipt,
              main: words.receipt(one.receipt),
              second: words.givenBackOn(when(one.givenBackAt ?? one.foundAt), one.givenBackTo),
            }))}
          />
        </section>
      ) : null}
    </Sheet>
  );
}

function Receipt(props: FoundPropertyView & { readonly when: string; readonly onGiveBack: () => void }) {
  return (
    <section class="page-section receipt" aria-label={words.receipt(props.receipt)}>
      <h2 class="t-title">{words.receipt(props.receipt)}</h2>
      <p class="t-main">{props.what}</p>
      <p>{`${words.foundIn(midSentence(props.kind))}, ${props.when}.`}</p>
      <p>{words.receiptSays}</p>
      <div class="button-row no-print">
        <Button weight="solid" onPress={() => window.print()}>
          {words.printReceipt}
        </Button>
        <Button weight="quiet" onPress={props.onGiveBack}>
          {words.giveBack}
        </Button>
      </div>
    </section>
  );
}

function FindForm(
  props: PropertyScreenProps & {
    readonly piece: string;
    readonly onFound: (piece: string, what: string) => Promise<void>;
  },
) {
  const { piece, client, say } = props;
  const asking = useAsked(() => load<PieceView>(client, "/api/pieces/{piece}", { piece }), piece);
  const [what, setWhat] = useState("");
  const send = (event: Event) => {
    event.preventDefault();
    const told = what.trim().slice(0, 2000);
    if (told === "") return;
    setWhat("");
    void props.onFound(piece, told);
  };
  return (
    <section class="page-section no-print">
      <Awaited asking={asking} what={words.theProperty} say={say} />
      {asking.answer ? (
        <form class="form" noValidate onSubmit={send}>
          <h2 class="t-head">{words.foundIn(midSentence(pieceName(asking.answer, say)))}</h2>
          <TextField label={words.whatWasFound} value={what} onInput={setWhat} lines={2} required />
          <Button type="submit" weight="solid">
            {words.keepIt}
          </Button>
        </form>
      ) : null}
    </section>
  );
}
