/** The model table, and the recorded words that accept what the labels alone do not. */
import { useState } from "preact/hooks";
import type { AcceptancesShown, ModelShown } from "../../server/domain/register/register-views.ts";
import { newId } from "../api/uuid-v7.ts";
import { Button, ButtonLink } from "../look/buttons.tsx";
import { TextField } from "../look/fields.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { FORM_WORDS } from "../look/words-forms.ts";
import { ask } from "./ask.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { type Lists, loadLists } from "./forms/lists.ts";
import { type ModelDraft, modelOfDraft } from "./forms/model-draft.ts";
import { ModelForm } from "./forms/model-form.tsx";
import { ModelTable } from "./forms/model-table.tsx";
import { RecordedWords } from "./forms/recorded-words.tsx";
import { useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { localMoment } from "./record/days.ts";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import type { Asked } from "./sign-in-screen.tsx";

const words = FORM_WORDS;

interface Loaded {
  readonly lists: Lists;
  readonly shown: AcceptancesShown;
}

export function ModelsScreen(props: FormScreenProps) {
  const asking = useAsked(() => load(props), "models");
  const { answer } = asking;
  return props.frame({
    verb: props.say.modelTable,
    second: words.modelsSay,
    children: (
      <>
        <Awaited asking={asking} what={words.theModels} say={props.say} />
        {answer ? <ModelsPage {...props} {...answer} again={asking.again} /> : null}
      </>
    ),
  });
}

async function load({ client }: FormScreenProps): Promise<Asked<Loaded>> {
  const [lists, shown] = await Promise.all([loadLists(client), ask(client.get("/api/acceptances"))]);
  if ("problem" in lists) return lists;
  return "problem" in shown ? shown : { answer: { lists: lists.answer, shown: shown.answer } };
}

type PageProps = FormScreenProps & Loaded & { readonly again: () => void };
/** What the form is open for: a row, a new one with its id drawn, or nothing. */
type Open = { readonly id: string; readonly model?: ModelShown } | undefined;

function ModelsPage(props: PageProps) {
  const { say, lists, clock, me } = props;
  const mayWrite = me.role === "inspector" || me.role === "program manager";
  const sendAct = useActs(props.client);
  const sending = useSend();
  const [open, setOpen] = useState<Open>();
  const [text, setText] = useState("");
  const today = localMoment(clock.now, clock.timeZone).day;
  const write = async (draft: ModelDraft) => {
    if (!open) return;
    const command = { models: [modelOfDraft(draft, open.id)] };
    const says = words.modelWritten(`${draft.maker.trim()} ${draft.name.trim()}`);
    if (!(await sending.send(() => sendAct("describeModels", command), says))) return;
    setOpen(undefined);
    props.again();
  };
  const wanted = text.trim().toLowerCase();
  const found = lists.models.filter(({ maker, name }) => `${maker} ${name}`.toLowerCase().includes(wanted));
  return (
    <Sheet>
      <div class="trail-bar page-bar">
        <TextField label={words.filterModels} value={text} onInput={setText} />
        {mayWrite ? (
          <Button
            expanded={open !== undefined}
            controls="model-form"
            onPress={() => setOpen(open ? undefined : { id: newId<string>() })}
          >
            {words.addModel}
          </Button>
        ) : null}
      </div>
      <section id="model-form" hidden={!open} aria-label={words.addModel} class="page-form">
        {open ? (
          <ModelForm key={open.id} {...{ say, lists, today }} model={open.model} onWrite={write} />
        ) : null}
      </section>
      <WrittenOrNot sending={sending} say={say} />
      {found.length > 0 ? (
        <ModelTable
          say={say}
          models={found}
          kinds={lists.kinds}
          onChange={mayWrite ? (model) => openRow(model, setOpen) : undefined}
        />
      ) : (
        <Notice kind="empty" head={lists.models.length === 0 ? words.noModels : words.noSuchModel}>
          {lists.models.length === 0 ? words.noModelsNext : ""}
        </Notice>
      )}
      <div class="button-row">
        <ButtonLink href="/api/model-table.csv" weight="quiet">
          {words.saveCsv}
        </ButtonLink>
        {mayWrite ? (
          <ButtonLink href="/import" weight="quiet">
            {say.bringIn}
          </ButtonLink>
        ) : null}
      </div>
      <RecordedWords {...props} {...{ today, sendAct }} given={givenPieces(location.search)} />
    </Sheet>
  );
}

/** Opens the form of a row and brings it into sight: the row may stand far below. */
function openRow(model: ModelShown, setOpen: (open: Open) => void): void {
  setOpen({ id: model.id, model });
  requestAnimationFrame(() => document.getElementById("model-form")?.scrollIntoView({ block: "start" }));
}

/** Reads the two pieces of an address such as `/models?shell=…&layer=…`, where the bench sends for a word. */
function givenPieces(search: string): { readonly shell?: string; readonly layer?: string } | undefined {
  const asked = new URLSearchParams(search);
  const [shell, layer] = [asked.get("shell"), asked.get("layer")];
  if (!shell && !layer) return undefined;
  return { ...(shell ? { shell } : {}), ...(layer ? { layer } : {}) };
}
