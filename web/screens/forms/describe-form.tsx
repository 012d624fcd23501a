/** The form of a piece that is read or corrected: filled from the record, each change said under its field. */
import { useState } from "preact/hooks";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { LabelReading } from "../../../server/domain/pieces/label.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import {
  type DescribeCommand,
  type DescribeDraft,
  describeCommand,
  describeProblems,
  draftOfPiece,
  wasBefore,
} from "./describe-draft.ts";
import { FileFields } from "./file-fields.tsx";
import { focusFirstWrong } from "./focus-wrong.ts";
import { LabelFields } from "./label-fields.tsx";
import type { Lists } from "./lists.ts";
import type { Problems } from "./register-draft.ts";

const words = FORM_WORDS;

export interface DescribeFormProps {
  readonly say: Words;
  readonly lists: Lists;
  readonly piece: PieceView;
  readonly today: string;
  readonly troubles: Readonly<Record<string, string>>;
  readonly onDescribe: (command: DescribeCommand) => Promise<void>;
}

export function DescribeForm(props: DescribeFormProps) {
  const { piece, lists, say } = props;
  const [draft, setDraft] = useState<DescribeDraft>(() => draftOfPiece(piece));
  const [isTried, setTried] = useState(false);
  const [isTouched, setTouched] = useState(false);
  const set = (changes: Partial<DescribeDraft>) => {
    setDraft({ ...draft, ...changes });
    setTouched(true);
  };
  const own: Problems<DescribeDraft> = isTried ? describeProblems(draft, props.today) : {};
  const problems: Problems<DescribeDraft> = { ...(isTouched ? {} : props.troubles), ...own };
  const command = describeCommand(piece, draft);
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    setTouched(false);
    if (command && Object.keys(describeProblems(draft, props.today)).length === 0) {
      await props.onDescribe(command);
    }
  };
  const wrong = Object.keys(own).length;
  return (
    <form class="form form-wide" noValidate onSubmit={(event) => void send(event)}>
      <Choice
        name="reading"
        legend={words.labelReading}
        value={draft.reading}
        options={(Object.keys(words.readings) as LabelReading[]).map((value) => ({
          ...{ value, label: words.readings[value] },
        }))}
        onChange={(reading) => set({ reading })}
      />
      {problems.reading ? <p class="field-problem">{problems.reading}</p> : null}
      <h2 class="t-head form-head">{words.labelGroup}</h2>
      <p class="t-second">{words.labelGroupNote}</p>
      <LabelFields
        say={say}
        draft={draft}
        problems={problems}
        models={lists.models.filter((model) => model.kind === piece.kind.code)}
        isShell={piece.kind.layer === "shell"}
        set={(field, value) => set({ [field]: value })}
        noteOf={(field) => wasBefore(piece, field, draft[field])}
      />
      <h2 class="t-head form-head">{words.fileGroup}</h2>
      <p class="t-second">{words.emptiedIsUnknown}</p>
      <FileFields draft={draft} problems={problems} lists={lists} set={set} />
      <TextField
        label={words.note}
        lines={3}
        value={draft.note}
        onInput={(note) => set({ note })}
        problem={problems.note}
      />
      {wrong > 0 ? <Notice kind="fault" head={words.fieldsStop(wrong)} live="assertive" /> : null}
      {isTried && !isTouched && !command ? <Notice kind="empty" head={words.nothingChanged} /> : null}
      <div class="button-row">
        <Button type="submit" weight="solid">
          {words.writeCorrection}
        </Button>
      </div>
    </form>
  );
}
