/** Every problem at its row and column, a page at a time. */
import { useState } from "preact/hooks";
import type { Client } from "../../api/client.ts";
import type { ProblemLineOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { DataTable } from "../../look/data-table.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { IMPORT_WORDS } from "../../look/words-import.ts";

const words = IMPORT_WORDS;

interface Shown {
  readonly lines: readonly ProblemLineOnWire[];
  readonly next?: number | undefined;
  readonly trouble?: string;
}

export function EveryProblem(props: { readonly client: Client; readonly id: string; readonly say: Words }) {
  const { client, id } = props;
  const [shown, setShown] = useState<Shown>();
  const more = async () => {
    const query = { after: String(shown?.next ?? 0) };
    const answer = await client.get("/api/imports/{id}/problems", { params: { id }, query: query as never });
    const before = shown?.lines ?? [];
    setShown(
      answer.ok
        ? { lines: [...before, ...answer.answer.problems], next: answer.answer.next }
        : { lines: before, next: shown?.next, trouble: answer.problem.detail },
    );
  };
  return (
    <>
      {shown && shown.lines.length > 0 ? (
        <DataTable
          caption={words.everyProblem}
          rows={shown.lines}
          rowKey={({ n }) => String(n)}
          columns={[
            { key: "row", head: words.row, names: true, cell: ({ row }) => row },
            {
              key: "column",
              head: words.column,
              cell: ({ column, header = "" }) => (column === undefined ? "" : words.columnAt(column, header)),
            },
            { key: "value", head: words.written, cell: ({ value }) => value },
            { key: "says", head: words.problem, cell: ({ says }) => says },
          ]}
        />
      ) : null}
      {shown?.trouble ? (
        <Notice kind="fault" head={words.notRead}>
          {shown.trouble}
        </Notice>
      ) : null}
      {!shown || shown.next !== undefined || shown.trouble ? (
        <p class="page-section">
          <Button weight="quiet" onPress={() => void more()}>
            {shown ? words.more : words.everyProblem}
          </Button>
        </p>
      ) : null}
    </>
  );
}
