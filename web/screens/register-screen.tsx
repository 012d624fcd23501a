/** Registers pieces by form; "same again" keeps the fields for a run of alike ones. */
import { useRef, useState } from "preact/hooks";
import { newId } from "../api/uuid-v7.ts";
import { ButtonLink } from "../look/buttons.tsx";
import { Sheet } from "../look/page.tsx";
import { FORM_WORDS } from "../look/words-forms.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { type Lists, loadLists } from "./forms/lists.ts";
import { NotForYou } from "./forms/not-for-you.tsx";
import { pieceOfDraft, type RegisterDraft } from "./forms/register-draft.ts";
import { RegisterForm } from "./forms/register-form.tsx";
import { RegisteredRun, type RunPiece } from "./forms/registered-run.tsx";
import { troubleByField } from "./forms/trouble-fields.ts";
import { useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { localMoment } from "./record/days.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";

const words = FORM_WORDS;

export function RegisterScreen(props: FormScreenProps) {
  const asking = useAsked(() => loadLists(props.client), "lists");
  const { answer } = asking;
  const mayWrite = ["technician", "inspector", "program manager"].includes(props.me.role);
  return props.frame({
    verb: props.say.registerGear,
    second: words.registerSays,
    children: mayWrite ? (
      <>
        <Awaited asking={asking} what={words.theLists} say={props.say} />
        {answer ? <RegisterPage {...props} lists={answer} /> : null}
      </>
    ) : (
      <NotForYou />
    ),
  });
}

function RegisterPage(props: FormScreenProps & { readonly lists: Lists }) {
  const { say, lists, clock } = props;
  const sendAct = useActs(props.client);
  const sending = useSend();
  const [run, setRun] = useState<readonly RunPiece[]>([]);
  const drawn = useRef<{ readonly says: string; readonly ids: readonly string[] }>({ says: "", ids: [] });
  /** Ids are drawn once for what is typed and kept until it is written: a second press is the same pieces. */
  const idsFor = (draft: RegisterDraft, count: number) => {
    const says = JSON.stringify(draft);
    if (drawn.current.says !== says) {
      drawn.current = { says, ids: Array.from({ length: count }, () => newId<string>()) };
    }
    return drawn.current.ids;
  };
  const register = async (draft: RegisterDraft, count: number): Promise<boolean> => {
    const pieces = idsFor(draft, count).map((id) => pieceOfDraft(draft, id));
    const isWritten = await sending.send(
      () => sendAct("registerPieces", { evidence: "typed", pieces }),
      words.registered(count),
    );
    if (!isWritten) return false;
    drawn.current = { says: "", ids: [] };
    setRun([...pieces.map((piece) => runPiece(piece, lists)), ...run]);
    return true;
  };
  return (
    <Sheet>
      <RegisterForm
        say={say}
        lists={lists}
        today={localMoment(clock.now, clock.timeZone).day}
        troubles={troubleByField(sending.problem)}
        onRegister={register}
      >
        <WrittenOrNot sending={sending} say={say} />
      </RegisterForm>
      <RegisteredRun pieces={run} onEnd={() => setRun([])} />
      <p class="t-second page-section">
        <ButtonLink href="/import" weight="quiet">
          {say.bringIn}
        </ButtonLink>
      </p>
    </Sheet>
  );
}

function runPiece({ id, kind, label }: ReturnType<typeof pieceOfDraft>, { kinds }: Lists): RunPiece {
  const { maker, modelName, size, serial, lot } = label;
  const second = [
    [maker, modelName].filter(Boolean).join(" "),
    size,
    serial && `${words.serial.toLowerCase()} ${serial}`,
    lot && `${words.lot.toLowerCase()} ${lot}`,
  ];
  return {
    id,
    kind: kinds.find(({ code }) => code === kind)?.name ?? kind,
    says: second.filter(Boolean).join(", "),
  };
}
