/** Chooses what a file holds and the file itself; and lists what was brought in before. */
import { useState } from "preact/hooks";
import type { Role } from "../../../server/domain/register/account.ts";
import type { Trouble } from "../../api/answer.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { FileField } from "../../look/file-field.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { IMPORT_WORDS } from "../../look/words-import.ts";
import { ask } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { Awaited } from "../record/awaited.tsx";
import { sayStamp } from "../record/days.ts";
import { useAsked } from "../record/use-asked.ts";
import { asBase64, MOST_FILE_BYTES } from "./read-file-bytes.ts";

const words = IMPORT_WORDS;
type What = "pieces" | "models" | "members";

const MAY: Readonly<Record<What, readonly Role[]>> = {
  pieces: ["technician", "inspector", "program manager"],
  models: ["inspector", "program manager"],
  members: ["program manager"],
};
const WHATS: readonly What[] = ["pieces", "models", "members"];

export function mayBringIn(role: Role): boolean {
  return MAY.pieces.includes(role);
}

export function ChooseFile(props: FormScreenProps & { readonly onArrived: (id: string) => void }) {
  const { client, me, say } = props;
  const whats = WHATS.filter((what) => MAY[what].includes(me.role));
  const asked = new URLSearchParams(location.search).get("what");
  const [what, setWhat] = useState<What>(() => whats.find((each) => each === asked) ?? "pieces");
  const [file, setFile] = useState<File>();
  const [isSending, setSending] = useState(false);
  const [wrong, setWrong] = useState<Pick<Trouble, "title" | "detail">>();
  const send = async () => {
    if (!file || isSending) return;
    if (file.size > MOST_FILE_BYTES) {
      const detail = `${words.tooLarge((file.size / 1_048_576).toFixed(1))} ${say.next} ${words.tooLargeNext}`;
      setWrong({ title: words.notRead, detail });
      return;
    }
    setSending(true);
    const body = { name: file.name.slice(-200), contentBase64: await asBase64(file) };
    const answer = await client.post(`/api/imports/${what}` as "/api/imports/pieces", { body });
    setSending(false);
    if (answer.ok) props.onArrived(answer.answer.id);
    else setWrong(answer.problem);
  };
  return (
    <Sheet>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
      >
        {whats.length > 1 ? (
          <Choice
            name="what"
            legend={words.whatLegend}
            options={whats.map((value) => ({ value, label: words.whats[value] }))}
            value={what}
            onChange={setWhat}
          />
        ) : null}
        <FileField
          label={words.file}
          choose={words.chooseFile}
          note={words.fileNote}
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          fileName={file?.name}
          onFile={(chosen) => {
            setFile(chosen);
            setWrong(undefined);
          }}
        />
        {wrong ? (
          <Notice kind="fault" head={wrong.title} live="assertive">
            {wrong.detail}
          </Notice>
        ) : null}
        <div class="action-row">
          <Button type="submit" disabled={!file || isSending}>
            {words.readIt}
          </Button>
          <ButtonLink href={`/api/import-templates/${what}`} weight="quiet">
            {words.template}
          </ButtonLink>
        </div>
      </form>
      <p class="t-second page-section">{words.evidence}</p>
      <Earlier {...props} />
    </Sheet>
  );
}

function Earlier(props: FormScreenProps) {
  const { client, say, clock, me } = props;
  const asking = useAsked(() => ask(client.get("/api/imports")), "imports");
  const files = asking.answer?.files;
  return (
    <section class="page-section" aria-label={words.earlier}>
      <h2 class="t-head">{words.earlier}</h2>
      <Awaited asking={asking} what={words.earlier.toLowerCase()} say={say} />
      {files && files.length === 0 ? <p class="t-second">{words.noEarlier}</p> : null}
      <ListRows
        label={words.earlier}
        rows={(files ?? []).map((file) => ({
          key: file.sha256,
          main: file.name,
          second: `${words.whats[file.what]}, ${words.broughtBy(file.by, sayStamp(Date.parse(file.at), clock.timeZone))}`,
          end: words.rowsIn(file.accepted, file.parked),
          ...(file.parked > 0 && (file.by === me.name || me.role === "program manager")
            ? { href: `/api/import-files/${file.sha256}/parked` }
            : {}),
        }))}
      />
    </section>
  );
}
