/** The entries of a trail under their months, with the gaps between them; each says who, how and its number. */
import type { TrailEntry as Entry } from "../../../server/domain/page-views.ts";
import type { Names } from "../../../server/domain/piece-view.ts";
import { Button } from "../../look/buttons.tsx";
import type { TrailMarkName } from "../../look/stitches.tsx";
import { TrailEntry, type TrailEntryProps, TrailMonth } from "../../look/trail-entry.tsx";
import type { Words } from "../../look/words.ts";
import { CORRECT_WORDS } from "../../look/words-correct.ts";
import { RECORD_WORDS, roleWord } from "../../look/words-record.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { isLate } from "../entry-words.ts";
import { whatCanBeWrong } from "./correct-draft.ts";
import { localMoment, sayDayOf, sayLength, sayShortDay } from "./days.ts";
import { entryMore } from "./entry-more.ts";
import { Said } from "./said.tsx";
import type { TrailGroup, TrailRow } from "./trail-rows.ts";
import { entryAnchor, howKnown, trailParts } from "./trail-words.ts";

const words = RECORD_WORDS;

export interface TrailEntriesProps {
  readonly groups: readonly TrailGroup[];
  readonly names: Names;
  readonly clock: Clock;
  readonly say: Words;
  /** Opens the correction of an entry; absent for who may only read. */
  readonly onCorrect?: ((entry: Entry) => void) | undefined;
}

export function TrailEntries(props: TrailEntriesProps) {
  return (
    <>
      {props.groups.map((group) => (
        <TrailMonth head={group.head} key={group.head}>
          {group.rows.map((row) => (
            <Row key={row.key} row={row} isSpan={group.isSpan} {...props} />
          ))}
        </TrailMonth>
      ))}
    </>
  );
}

type RowProps<Row> = TrailEntriesProps & { readonly row: Row; readonly isSpan: boolean };

function Row(props: RowProps<TrailRow>) {
  const { row } = props;
  return row.what === "gap" ? <GapRow {...props} row={row} /> : <EntryRow {...props} row={row} />;
}

function GapRow(props: RowProps<Extract<TrailRow, { what: "gap" }>>) {
  const { row, clock } = props;
  const [from, to] = [localMoment(row.from, clock.timeZone), localMoment(row.to, clock.timeZone)];
  const isOneYear = from.day.slice(0, 4) === to.day.slice(0, 4);
  const isOneDay = from.day === to.day;
  const day = isOneDay
    ? sayDayOf(to.day, props.isSpan)
    : words.toDay(sayShortDay(from.day, !isOneYear), sayShortDay(to.day, !isOneYear));
  return (
    <TrailEntry
      day={day}
      time={isOneDay ? words.toDay(from.clock, to.clock) : undefined}
      mark="gap"
      markSays={words.gapMark}
      verb={words.gapVerb}
      who={words.noEntry}
    >
      {words.gapSays(sayLength(row.to - row.from))}
    </TrailEntry>
  );
}

function EntryRow(props: RowProps<Extract<TrailRow, { what: "entry" }>>) {
  const { row, clock, names, say } = props;
  const { entry } = row;
  const { verb, rest } = trailParts(entry, names);
  const more = entryMore(entry, names, words).join(" ");
  const { day, clock: time } = localMoment(row.at, clock.timeZone);
  return (
    <TrailEntry
      day={sayDayOf(day, props.isSpan)}
      time={time}
      moment={entry.at}
      {...markOf(entry, say)}
      verb={rest ? verb : `${verb}.`}
      aside={<Asides entry={entry} clock={clock} />}
      who={[entry.by.name, entry.by.detail && roleWord(entry.by.detail, say)].filter(Boolean).join(", ")}
      how={howKnown(entry)}
      id={entryAnchor(entry)}
      act={
        props.onCorrect && whatCanBeWrong(entry).length > 0 ? (
          <CorrectButton {...props} entry={entry} />
        ) : null
      }
    >
      <Said text={[rest && `${rest}.`, more].filter(Boolean).join(" ")} linked={isOwn(entry)} />
    </TrailEntry>
  );
}

function CorrectButton(props: Pick<TrailEntriesProps, "onCorrect"> & { readonly entry: Entry }) {
  return (
    <Button weight="bare" onPress={() => props.onCorrect?.(props.entry)}>
      {CORRECT_WORDS.correct}
      <span class="for-ears">{` ${words.entryNumber(props.entry.version)}`}</span>
    </Button>
  );
}

function markOf(entry: Entry, say: Words): Pick<TrailEntryProps, "mark" | "markSays"> {
  const marked = (mark: TrailMarkName, markSays?: string) => ({ mark, markSays });
  const { kind } = entry.entry;
  if (kind === "EntryCorrected") return marked("correction", say.correction);
  if (kind === "HoldPlaced") return marked("hold", words.holdMark);
  if (kind === "LayerFoundFitted" && entry.entry.verdict === "differs") {
    return marked("stop", words.stopMark);
  }
  return isLate(entry.at, entry.recordedAt) ? marked("late", say.writtenLater) : marked("entry");
}

/** What stands after the sentence: that it was written down later, what corrected it, the note. */
function Asides(props: { readonly entry: Entry; readonly clock: Clock }) {
  const { entry, clock } = props;
  const late = isLate(entry.at, entry.recordedAt)
    ? words.writtenOn(
        sayWhen(entry.recordedAt, clock.now, clock.timeZone),
        sayLength(Date.parse(entry.recordedAt) - Date.parse(entry.at)),
      )
    : "";
  const notes = Object.values(entry.texts ?? {}).map((text) =>
    text === null ? words.noteWithdrawn : words.note(text),
  );
  const corrected = entry.correctedBy === undefined ? "" : words.correctedBy(entry.correctedBy);
  const text = [corrected, late, ...notes].filter(Boolean).join(" ");
  return <Said text={text} linked={isOwn(entry)} />;
}

/** Entry numbers in the sentences of other subjects are not those of this page's anchors. */
function isOwn(entry: Entry): boolean {
  return entry.subjectKind === "piece" && !entry.ofLayer;
}
