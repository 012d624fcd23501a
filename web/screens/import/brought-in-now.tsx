/** Says what came in just now, and leads on: to the tags of the pieces, to the parked rows, to the next file. */
import type { BroughtInOnWire, ImportOnWire } from "../../api/wire.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { IMPORT_WORDS } from "../../look/words-import.ts";

const words = IMPORT_WORDS;

export interface BroughtInNowProps {
  readonly seen: ImportOnWire;
  readonly file: BroughtInOnWire;
  readonly say: Words;
  readonly onAnother: () => void;
}

export function BroughtInNow({ seen, file, say, onAnother }: BroughtInNowProps) {
  return (
    <>
      <Notice kind="done" head={words.done(seen.what, file.accepted)}>
        {file.parked > 0 ? words.parkedSay(file.parked) : ""}
      </Notice>
      {seen.what === "members" ? null : <p class="t-second page-section">{words.evidence}</p>}
      <div class="action-row">
        {seen.what === "pieces" && file.act ? (
          <ButtonLink href={`/tags?act=${file.act}`}>{words.printTags}</ButtonLink>
        ) : null}
        {seen.what === "members" ? <ButtonLink href="/cards">{say.printCards}</ButtonLink> : null}
        {file.parked > 0 ? (
          <ButtonLink href={`/api/import-files/${file.sha256}/parked`}>{words.saveParked}</ButtonLink>
        ) : null}
        <Button weight="quiet" onPress={onAnother}>
          {words.another}
        </Button>
      </div>
    </>
  );
}
