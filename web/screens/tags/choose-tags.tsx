/** Chooses which tags are drawn and on what, behind the cautions of the run; and lists the runs before. */
import { useState } from "preact/hooks";
import type { Trouble } from "../../api/answer.ts";
import { newId } from "../../api/uuid-v7.ts";
import type { PrintOptionsOnWire } from "../../api/wire.ts";
import { Confirm } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { Cautions } from "./cautions.tsx";
import { ChoosePieces, type Chosen } from "./choose-pieces.tsx";
import { EarlierRuns } from "./earlier-runs.tsx";
import { FIRST_CHOICE, PrintOn, type PrintOnChoice, usedProblem } from "./print-on.tsx";

const words = PRINT_WORDS;
const MOST_SPARE = 10_000;

export type ChooseTagsProps = FormScreenProps & {
  readonly options: PrintOptionsOnWire;
  readonly onRun: (id: string) => void;
};

export function ChooseTags(props: ChooseTagsProps) {
  const { client, options, onRun } = props;
  const [kind, setKind] = useState<"pieces" | "spare">("pieces");
  const [pieces, setPieces] = useState<Chosen>([]);
  const [spare, setSpare] = useState("20");
  const [on, setOn] = useState<PrintOnChoice>(FIRST_CHOICE);
  const [isRead, setRead] = useState(false);
  const [wrong, setWrong] = useState<Trouble>();
  const spareCount = /^\d{1,5}$/.test(spare) ? Number(spare) : 0;
  const isSpareRight = spareCount >= 1 && spareCount <= MOST_SPARE;
  const count = kind === "spare" ? (isSpareRight ? spareCount : 0) : pieces.length;
  const isBlocked = count === 0 || !isRead || usedProblem(on, options) !== undefined;
  const draw = async () => {
    const what = kind === "spare" ? { spare: count } : { pieces: [...pieces] };
    const command = {
      run: newId<string>(),
      ...what,
      ...on,
      used: Number(on.used),
      ackCautions: true as const,
    };
    const answer = await client.post("/api/print-runs", { body: client.newOrder(command) });
    if (answer.ok) onRun(answer.answer.about);
    else setWrong(answer.problem);
  };
  return (
    <Sheet>
      <div class="form form-wide">
        <Choice
          name="for"
          legend={words.forLegend}
          options={[
            { value: "pieces", label: words.forPieces },
            { value: "spare", label: words.spare },
          ]}
          value={kind}
          onChange={setKind}
        />
        {kind === "spare" ? (
          <TextField
            label={words.spareCount}
            note={words.spareNote}
            inputmode="numeric"
            value={spare}
            onInput={setSpare}
            problem={isSpareRight ? undefined : words.spareWrong}
          />
        ) : (
          <ChoosePieces {...props} onChosen={setPieces} />
        )}
        <PrintOn options={options} choice={on} onChoice={setOn} withWords={kind === "pieces"} />
        <Cautions options={options} isSheet={on.stock !== "roll"} isRead={isRead} onRead={setRead} />
        {wrong ? (
          <Notice kind="fault" head={wrong.title} live="assertive">
            {wrong.detail}
          </Notice>
        ) : null}
        <div class="action-row">
          <Confirm
            label={count === 0 ? words.drawNothing : isRead ? words.draw(count) : words.drawBlocked}
            blocked={isBlocked}
            reasonsId="print-cautions"
            onPress={() => void draw()}
            onRefused={() => document.getElementById("print-cautions")?.focus()}
          />
        </div>
      </div>
      <EarlierRuns {...props} onOpen={onRun} what="tags" />
    </Sheet>
  );
}
