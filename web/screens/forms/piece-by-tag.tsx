/** A field that takes a tag, scanned or typed, and gives the piece that it opens. */
import { useEffect, useState } from "preact/hooks";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { Client } from "../../api/client.ts";
import { Button } from "../../look/buttons.tsx";
import { TextField } from "../../look/fields.tsx";
import { midSentence, type Words } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { ask } from "../ask.ts";
import { pieceName } from "../bench/describe-piece.ts";

const words = FORM_WORDS;

export interface PieceByTagProps {
  readonly client: Client;
  readonly say: Words;
  readonly label: string;
  /** A piece that is known already when the page opens, by its id. */
  readonly given?: string | undefined;
  readonly problem?: string | undefined;
  readonly onPiece: (piece: PieceView | undefined) => void;
}

export function PieceByTag(props: PieceByTagProps) {
  const { client, say } = props;
  const [text, setText] = useState("");
  const [found, setFound] = useState<PieceView>();
  const [wrong, setWrong] = useState<string>();
  const take = (piece: PieceView | undefined, says?: string) => {
    setFound(piece);
    setWrong(piece ? undefined : says);
    props.onPiece(piece);
  };
  useEffect(() => {
    if (!props.given) return;
    void ask(client.get("/api/pieces/{piece}", { params: { piece: props.given } })).then((asked) => {
      if (!("answer" in asked)) return setWrong(asked.problem.detail);
      setText(asked.answer.number ?? "");
      take(asked.answer);
    });
  }, [props.given]);
  const lookUp = async (event: Event) => {
    event.preventDefault();
    if (text.trim() === "") return;
    const scan = { params: { text: text.trim() }, query: { mode: "look up", via: "typed" as const } };
    const asked = await ask(client.get("/api/scan/{text}", scan));
    if ("problem" in asked) return take(undefined, asked.problem.detail);
    const { answer } = asked;
    take("piece" in answer ? answer.piece : undefined, words.noPieceThere);
  };
  return (
    <form class="field-row" onSubmit={(event) => void lookUp(event)}>
      <TextField
        label={props.label}
        value={text}
        onInput={(value) => {
          setText(value);
          if (found) take(undefined);
        }}
        note={found ? words.lookedUp(midSentence(pieceName(found, say))) : words.tagNote}
        problem={wrong ?? (found ? undefined : props.problem)}
        mono
        scans="send"
      />
      <Button type="submit">{say.lookUp}</Button>
    </form>
  );
}
