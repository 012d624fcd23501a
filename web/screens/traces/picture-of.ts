/** Makes of a trace what its picture is drawn from: instants as numbers, lanes by how things lie there. */

import { sayNamed } from "../../../server/domain/tracing/contact-words.ts";
import type { TraceLane, TraceThread, TraceView } from "../../../server/domain/tracing/trace-view.ts";
import type { PictureInput, PictureStay } from "../../look/trace-picture-layout.ts";
import { sentence } from "../../look/words.ts";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import { pathOf } from "./trace-words.ts";

const words = TRACING_WORDS;

/** Gives lanes, threads and window of the picture; it begins where the first drawn stay does. */
export function pictureOf(view: TraceView): PictureInput {
  return {
    lanes: view.lanes.map(laneOf),
    threads: view.threads.map((thread) => threadOf(thread, view)),
    from: Date.parse(view.from),
    to: Date.parse(view.to),
  };
}

function laneOf({ id, holder, sort, carries, isFollowed }: TraceLane) {
  return {
    ...{ key: id, name: sentence(holder.name), edge: carries },
    sort: isFollowed ? sort : `${sort}, ${words.notFollowedHere}`,
  };
}

function threadOf(thread: TraceThread, view: TraceView) {
  const contact = view.contacts.find(({ piece }) => piece === thread.piece);
  const stays = thread.stays.map(
    ({ lane, from, to, state }): PictureStay => ({
      ...{ lane, state, from: Date.parse(from) },
      ...(to === undefined ? {} : { to: Date.parse(to) }),
    }),
  );
  return {
    ...{ key: thread.piece, garment: thread.garment, stays },
    cleanings: thread.cleanings.filter(({ isAccepted }) => isAccepted).map(({ at }) => Date.parse(at)),
    ...(contact ? { knot: { rank: contact.rank, at: Date.parse(contact.firstMoment) } } : {}),
  };
}

/** Says of each thread what it is and how it was possibly reached, and where its trail is. */
export function toldOf(view: TraceView, clock: Clock) {
  return new Map(
    view.threads.map((thread) => {
      const contact = view.contacts.find(({ piece }) => piece === thread.piece);
      const name = sentence(sayNamed(thread.name));
      const says = contact
        ? words.threadOf(contact.rank, name, pathOf(contact, view, clock))
        : thread.isRoot
          ? words.rootThread(name)
          : name;
      return [thread.piece as string, { says, href: `/pieces/${thread.piece}` }] as const;
    }),
  );
}
