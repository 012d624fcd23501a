/** The files of a run: shown in a frame of the page, from where the browser prints them, and saved. */
import { useEffect, useState } from "preact/hooks";
import type { Client } from "../../api/client.ts";
import type { PrintRunOnWire } from "../../api/wire.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";

const words = PRINT_WORDS;

export interface RunFilesProps {
  readonly client: Client;
  readonly run: PrintRunOnWire;
  readonly steps: readonly string[];
}

export function RunFiles({ client, run, steps }: RunFilesProps) {
  const [open, setOpen] = useState<{ readonly n: number; readonly url: string }>();
  useEffect(() => () => (open ? URL.revokeObjectURL(open.url) : undefined), [open?.url]);
  if (run.files.length === 0) return null;
  const show = async (n: number) => {
    if (open?.n === n) return setOpen(undefined);
    const params = { id: run.id, n: n as never };
    const answer = await client.get("/api/print-runs/{id}/files/{n}", { params, query: {} });
    if (answer.ok) setOpen({ n, url: URL.createObjectURL(answer.answer as unknown as Blob) });
  };
  const nameOf = ({ n, count }: PrintRunOnWire["files"][number]) =>
    count === 0 ? words.ruler : words.fileOf(n, count);
  return (
    <section class="page-section" aria-label={words.files}>
      <h2 class="t-head">{words.files}</h2>
      <ul class="run-files">
        {run.files.map((file) => (
          <li key={file.n}>
            <span class="run-file-name">{nameOf(file)}</span>
            <Button
              expanded={open?.n === file.n}
              controls="run-frame"
              name={`${open?.n === file.n ? words.hide : words.show}: ${nameOf(file)}`}
              onPress={() => void show(file.n)}
            >
              {open?.n === file.n ? words.hide : words.show}
            </Button>
            <ButtonLink href={`/api/print-runs/${run.id}/files/${file.n}`} weight="quiet">
              {words.save}
            </ButtonLink>
          </li>
        ))}
      </ul>
      <div id="run-frame">
        {open ? (
          <iframe
            class="run-frame"
            title={words.frameName(
              nameOf(run.files.find(({ n }) => n === open.n) ?? { n: open.n, count: 0, bytes: 0 }),
            )}
            src={open.url}
          />
        ) : null}
      </div>
      <h3 class="t-sub">{words.atPrinter}</h3>
      <ul class="caution-list">
        {steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ul>
    </section>
  );
}
