import type { FittingSpan, StayView, TrailPiece } from "../domain/page-views.ts";
import type { HoldView, KindBrief, Named, Names, TagView } from "../domain/piece-view.ts";
import { fittedNow, type Hold, type PieceState, standingHolds } from "../domain/pieces/piece-state.ts";
import type { KindFacts } from "../domain/register/kind.ts";
import type { TagOnRecord } from "../domain/tags/tag-entries.ts";
import type { Instant } from "../domain/time.ts";
import type { LoadedEntry } from "../store/load-trail.ts";
import { nameHolder } from "../store/names.ts";

const wire = (at: Instant | number) => new Date(at).toISOString();

/** Tells what is true of a piece by the entries that were folded, as it is shown at the head of its trail. */
export function trailPiece(
  state: PieceState,
  known: {
    readonly tags: readonly TagOnRecord[];
    readonly loaded: readonly LoadedEntry[];
    readonly kinds: ReadonlyMap<string, KindFacts>;
    readonly names: Names;
  },
): TrailPiece {
  const { names } = known;
  const fitted = fittedNow(state);
  const first = state.stays[0]?.holder ?? state.holder;
  return {
    id: state.id,
    version: state.version,
    kind: kindBrief(state.kind, known.kinds),
    label: state.label,
    labelReading: state.reading,
    tags: known.tags.map((tag) => tagView(tag, known.loaded)),
    holder: nameHolder(state.holder, names),
    heldSince: wire(state.heldSince),
    ...(state.assignment ? { assignment: state.assignment } : {}),
    soiled: state.soiled,
    washes: state.washes,
    registeredAt: wire(state.registeredAt),
    registeredWith: nameHolder(first, names),
    ...(state.retiredAt === undefined ? {} : { retiredAt: wire(state.retiredAt) }),
    holds: standingHolds(state).map(holdView),
    ...(fitted ? { fittedIn: { shell: namePiece(fitted.shell, names), since: wire(fitted.from) } } : {}),
  };
}

function kindBrief(code: string, kinds: ReadonlyMap<string, KindFacts>): KindBrief {
  const kind = kinds.get(code);
  if (!kind) return { code, name: code, family: "other" };
  const { name, family, garment, layer } = kind;
  return { code, name, family, ...(garment ? { garment } : {}), ...(layer ? { layer } : {}) };
}

/** Shows a hold of the fold as the bench shows it. */
export function holdView({ version, kind, placedAt, placedBy, ...hold }: Hold): HoldView {
  return {
    ...{ version, kind, placedAt: wire(placedAt), placedBy: placedBy as HoldView["placedBy"] },
    ...(hold.with ? { with: hold.with } : {}),
  };
}

function tagView(
  { id, number, state, attachedAt, version }: TagOnRecord,
  loaded: readonly LoadedEntry[],
): TagView {
  const last = loaded.find((entry) => entry.subject === id && entry.version === version)?.body;
  const hasEnded = state.status === "superseded" || state.status === "lost" || state.status === "destroyed";
  return {
    number,
    state: state.status,
    ...("position" in state ? { position: state.position } : {}),
    ...(attachedAt === undefined ? {} : { attachedAt: wire(attachedAt) }),
    ...(state.status === "superseded" ? { supersededBy: state.by } : {}),
    ...(hasEnded && last && "at" in last ? { endedAt: wire(last.at) } : {}),
  };
}

/** Lists the stays with their gaps, oldest first. */
export function stayViews(state: PieceState, names: Names): StayView[] {
  return state.stays.map((stay) => ({
    holder: nameHolder(stay.holder, names),
    from: wire(stay.from),
    ...(stay.to === undefined ? {} : { to: wire(stay.to) }),
    evidence: stay.evidence,
    isGap: stay.holder.kind === "whereabouts unknown",
    fromVersion: stay.fromVersion,
    ...(stay.toVersion === undefined ? {} : { toVersion: stay.toVersion }),
  }));
}

/** Lists when the piece was in which shell, and which layers were in it, by when they began. */
export function fittingSpans(state: PieceState, layers: readonly PieceState[], names: Names): FittingSpan[] {
  const spans = [
    ...state.fittings.map((fitting) => ({ role: "was in" as const, piece: fitting.shell, fitting })),
    ...layers.flatMap((layer) =>
      layer.fittings
        .filter(({ shell }) => shell === state.id)
        .map((fitting) => ({ role: "held" as const, piece: layer.id, fitting })),
    ),
  ];
  return spans
    .sort((a, b) => a.fitting.from - b.fitting.from)
    .map(({ role, piece, fitting }) => ({
      role,
      piece: namePiece(piece, names),
      layerKind: fitting.layerKind,
      from: wire(fitting.from),
      ...(fitting.to === undefined ? {} : { to: wire(fitting.to) }),
      verdict: fitting.verdict,
      evidence: fitting.evidence,
    }));
}

function namePiece(id: PieceState["id"], names: Names): Named {
  return names[id] ?? { kind: "piece", id, name: "a piece not on record" };
}
