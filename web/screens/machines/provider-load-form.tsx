/** Writes down what a provider cleaned together, by its manifest: the tags as they stand on it, one a line. */
import { useState } from "preact/hooks";
import { HOW_CLEANED, type HowCleaned } from "../../../server/domain/pieces/piece-entries.ts";
import type { ProviderState } from "../../../server/domain/register/parties.ts";
import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import type { Client } from "../../api/client.ts";
import { newId } from "../../api/uuid-v7.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import { load } from "../ask.ts";
import { instantIn } from "../record/days.ts";
import { linesOf } from "./manifest-lines.ts";

const words = MACHINE_WORDS;

interface ProviderLoadFormProps {
  readonly client: Client;
  readonly providers: readonly ProviderState[];
  readonly timeZone: string;
  readonly onSend: (body: object, says: string) => void;
}

export function ProviderLoadForm(props: ProviderLoadFormProps) {
  const providers = props.providers.filter(({ closed }) => !closed);
  const [provider, setProvider] = useState<string>(providers[0]?.id ?? "");
  const [document, setDocument] = useState("");
  const [how, setHow] = useState<HowCleaned>("advanced cleaning");
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  const [lines, setLines] = useState("");
  const [problem, setProblem] = useState<string>();
  const send = async (event: Event) => {
    event.preventDefault();
    const [start, end] = [instantIn(from, props.timeZone), instantIn(to, props.timeZone)];
    if (!provider || document.trim() === "") return setProblem(words.manifestNeeds);
    if (start === undefined || end === undefined || end <= start) return setProblem(words.manifestTimes);
    const read = await readTags(props.client, linesOf(lines));
    if (read.unknown.length > 0) return setProblem(words.manifestUnknown(read.unknown));
    if (read.pieces.length === 0) return setProblem(words.manifestEmpty);
    setProblem(undefined);
    props.onSend(
      {
        ...{ load: newId(), provider, document: document.trim(), how },
        pieces: read.pieces.map((piece) => ({ piece, evidence: "typed" })),
        ...{ from: new Date(start).toISOString(), to: new Date(end).toISOString() },
      },
      words.manifestWritten(read.pieces.length),
    );
  };
  return (
    <form class="form" noValidate onSubmit={(event) => void send(event)}>
      <p>{words.manifestSays}</p>
      <SelectField
        label={words.provider}
        value={provider}
        options={providers.map(({ id, name }) => ({ value: id as string, label: name }))}
        onChange={setProvider}
      />
      <TextField label={words.manifest} value={document} onInput={setDocument} />
      <SelectField
        label={CLEANING_WORDS.how}
        value={how}
        options={HOW_CLEANED.map((value) => ({ value, label: CLEANING_WORDS.howCleaned[value] }))}
        onChange={(value) => setHow(value as HowCleaned)}
      />
      <TextField label={words.manifestFrom} type="datetime-local" value={from} onInput={setFrom} />
      <TextField label={words.manifestTo} type="datetime-local" value={to} onInput={setTo} />
      <TextField
        label={words.manifestTags}
        value={lines}
        onInput={setLines}
        lines={6}
        mono
        problem={problem}
        note={words.manifestTagsNote}
      />
      <Button type="submit" weight="solid">
        {words.write}
      </Button>
    </form>
  );
}

/** Looks each number up as it was typed. What opens no piece is told, and nothing is written. */
async function readTags(
  client: Client,
  lines: readonly string[],
): Promise<{ readonly pieces: readonly string[]; readonly unknown: readonly string[] }> {
  const pieces: string[] = [];
  const unknown: string[] = [];
  for (const text of lines) {
    const query = { mode: "load", via: "typed" };
    const asked = await load<ScanAnswer>(client, "/api/scan/{text}", { text }, query);
    const piece = "answer" in asked && "piece" in asked.answer ? asked.answer.piece?.id : undefined;
    if (piece) pieces.push(piece);
    else unknown.push(text);
  }
  return { pieces: [...new Set(pieces)], unknown };
}
