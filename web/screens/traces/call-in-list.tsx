/** Whom to call in: what members in the field have and nobody has settled, by station and shift. */
import type { TraceContact } from "../../../server/domain/tracing/trace-view.ts";
import { ListRows } from "../../look/list-rows.tsx";
import { sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import { callInList, nameOf } from "./trace-words.ts";

const words = TRACING_WORDS;

export function CallInList({ contacts }: { readonly contacts: readonly TraceContact[] }) {
  const groups = callInList(contacts);
  return (
    <section class="page-section">
      <h2 class="t-head">{words.callIn}</h2>
      <p>{groups.length === 0 ? words.noCallIn : words.callInNote}</p>
      {groups.map(({ station, shift, contacts: listed }) => (
        <div key={`${station} ${shift ?? ""}`}>
          <h3 class="t-second">{shift ? `${station}, ${words.shift(shift)}` : station}</h3>
          <ListRows
            label={station}
            rows={listed.map((contact) => ({
              key: contact.piece,
              main: contact.nowWith.name,
              second: `${contact.rank}. ${sentence(nameOf(contact))}`,
            }))}
          />
        </div>
      ))}
    </section>
  );
}
