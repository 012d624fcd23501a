/** What a file comes to before anything is written: counts, missing places, columns, problems, first rows, one confirm. */
import { useState } from "preact/hooks";
import type { Trouble } from "../../api/answer.ts";
import type { ImportOnWire, PreviewOnWire } from "../../api/wire.ts";
import { ButtonLink, Confirm } from "../../look/buttons.tsx";
import { DataTable } from "../../look/data-table.tsx";
import { Notice } from "../../look/notice.tsx";
import { IMPORT_WORDS } from "../../look/words-import.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { EveryProblem } from "./every-problem.tsx";
import { MapColumns } from "./map-columns.tsx";
import { MissingPlaces } from "./missing-places.tsx";

const words = IMPORT_WORDS;

export type PreviewProps = FormScreenProps & {
  readonly seen: ImportOnWire;
  readonly preview: PreviewOnWire;
  readonly onJob: (job: string, isWriting: boolean) => void;
};

export function PreviewOfFile(props: PreviewProps) {
  const { client, seen, preview, say, onJob } = props;
  const { accepted, parked, counts } = preview;
  const [wrong, setWrong] = useState<Trouble>();
  const coming = counts.fresh + counts.changed;
  const readAgain = async (columns: Readonly<Record<string, number | null>>) => {
    const params = { id: seen.id };
    const answer = await client.post("/api/imports/{id}/read", { params, body: { columns } });
    if (answer.ok) onJob(answer.answer.job, false);
    else setWrong(answer.problem);
  };
  const bringIn = async () => {
    const body = client.newOrder({ digest: preview.digest });
    const answer = await client.post("/api/imports/{id}/accept", { params: { id: seen.id }, body });
    if (answer.ok) onJob(answer.answer.job, true);
    else setWrong(answer.problem);
  };
  const chosen = Object.fromEntries(preview.columns.map(({ field, at }) => [field, at ?? null]));
  return (
    <>
      <Summary {...props} />
      {wrong ? (
        <Notice kind="fault" head={wrong.title} live="assertive">
          {wrong.detail}
        </Notice>
      ) : null}
      <div class="action-row">
        <Confirm
          label={coming > 0 ? words.bringIn(seen.what, coming) : words.nothingToBring}
          blocked={coming === 0}
          reasonsId="import-problems"
          onPress={() => void bringIn()}
          onRefused={() => document.getElementById("import-problems")?.focus()}
        />
        {parked > 0 ? (
          <ButtonLink href={`/api/imports/${seen.id}/parked`} weight="quiet">
            {words.saveParked}
          </ButtonLink>
        ) : null}
      </div>
      {preview.missingPlaces.length > 0 ? (
        <MissingPlaces
          client={client}
          say={say}
          places={preview.missingPlaces}
          onMade={() => void readAgain(chosen)}
        />
      ) : null}
      {preview.groups.length > 0 ? <Problems {...props} /> : null}
      <MapColumns preview={preview} onRead={(columns) => void readAgain(columns)} />
      {accepted > 0 ? <Sample preview={preview} /> : null}
    </>
  );
}

function Summary({ preview, seen }: PreviewProps) {
  const { rows, accepted, parked, counts, missing, columns } = preview;
  if (missing.length > 0) {
    const names = columns.filter(({ field }) => missing.includes(field)).map(({ header }) => header);
    return (
      <Notice kind="unknown" head={words.missing(names.join(", "))}>
        {words.missingNext}
      </Notice>
    );
  }
  const more =
    seen.what === "pieces" ? "" : `${words.countsSay(counts.fresh, counts.changed, counts.same)}. `;
  return (
    <Notice kind={accepted > 0 ? "done" : "unknown"} head={words.reads(accepted, rows)}>
      {more}
      {parked > 0 ? words.parkedSay(parked) : ""}
      {parked === 0 && counts.fresh + counts.changed === 0 ? words.nothingToBringSays : ""}
    </Notice>
  );
}

function Problems(props: PreviewProps) {
  const { client, seen, preview, say } = props;
  return (
    <section class="page-section" id="import-problems" tabIndex={-1} aria-label={words.problems}>
      <h2 class="t-head">{words.problems}</h2>
      <DataTable
        caption={words.problems}
        hideCaption
        rows={preview.groups}
        rowKey={({ says }) => says}
        columns={[
          { key: "says", head: words.problem, names: true, cell: ({ says }) => says },
          { key: "rows", head: words.rows, align: "right", cell: ({ rows }) => rows },
          { key: "first", head: words.firstRow, align: "right", cell: ({ firstRow }) => firstRow },
        ]}
      />
      <EveryProblem client={client} id={seen.id} say={say} />
    </section>
  );
}

/** The first rows with the headers that are read, so that a wrong column shows before anything is written. */
function Sample({ preview }: { readonly preview: PreviewOnWire }) {
  const read = preview.columns.filter(({ at }) => at !== undefined);
  return (
    <section class="page-section" aria-label={words.sample}>
      <h2 class="t-head">{words.sample}</h2>
      <div class="wide-table">
        <DataTable
          caption={words.sample}
          hideCaption
          rows={preview.sample}
          rowKey={({ row }) => String(row)}
          columns={[
            { key: "row", head: words.row, names: true, cell: ({ row }) => row },
            ...read.map(({ field, header, at = 0 }) => {
              return {
                key: field,
                head: header,
                cell: (row: PreviewOnWire["sample"][number]) => row.cells[at],
              };
            }),
          ]}
        />
      </div>
    </section>
  );
}
