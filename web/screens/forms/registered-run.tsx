/** The pieces that were registered in this run, with the way to their tags. */
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { FORM_WORDS } from "../../look/words-forms.ts";

const words = FORM_WORDS;

export interface RunPiece {
  readonly id: string;
  readonly kind: string;
  readonly says: string;
}

export function RegisteredRun(props: { readonly pieces: readonly RunPiece[]; readonly onEnd: () => void }) {
  const { pieces } = props;
  if (pieces.length === 0) return null;
  const ids = pieces.map(({ id }) => id);
  return (
    <section class="page-section" aria-label={words.runHead(pieces.length)}>
      <h2 class="t-head">{words.runHead(pieces.length)}</h2>
      <div class="button-row">
        <ButtonLink href={`/tags?pieces=${ids.join(",")}`}>
          {pieces.length === 1 ? words.printTag : words.printTags(pieces.length)}
        </ButtonLink>
        <Button weight="quiet" onPress={props.onEnd}>
          {words.endRun}
        </Button>
      </div>
      <ListRows
        label={words.runHead(pieces.length)}
        rows={pieces.map(({ id, kind, says }) => ({
          ...{ key: id, href: `/pieces/${id}`, main: kind, second: says, end: words.openTrail },
        }))}
      />
    </section>
  );
}
