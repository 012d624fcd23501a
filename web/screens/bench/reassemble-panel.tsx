/** What reassembling shows: what goes in the open shell, which goes in which, what stays over, and what is tangled. */
import { findTangles } from "../../../server/domain/reassemble/find-tangles.ts";
import { Button } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import { StitchMark } from "../../look/stitches.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import { midSentence, type Words } from "../../look/words.ts";
import { pieceName } from "./describe-piece.ts";
import type { Clock } from "./look-up-panel.tsx";
import type { Reassembly } from "./reassemble-run.ts";
import { briefOf, type PlaceTold, type ShellTold, tellReassembly } from "./reassemble-words.ts";
import type { Bench } from "./use-bench.ts";

export interface ReassemblePanelProps {
  readonly bench: Bench;
  readonly clock: Clock;
  readonly say: Words;
}

export function ReassemblePanel(props: ReassemblePanelProps) {
  const { bench, say, clock } = props;
  const { reassembly, shell, mode } = bench.run;
  const isLayingOut = mode.kind === "reassemble" && mode.step === "lay out";
  if (!reassembly || reassembly.lying.length === 0) {
    const { nothingLies, nothingLiesNext, nothingOpen, nothingOpenNext } = say.reassemble;
    return (
      <div class="bench-empty cutting-table">
        <Notice kind="empty" head={isLayingOut ? nothingLies : nothingOpen}>
          {isLayingOut ? nothingLiesNext : nothingOpenNext}
        </Notice>
      </div>
    );
  }
  const { list, plan } = reassembly;
  if (!list || !plan) return <p class="reassemble-sheet">{say.reassemble.asking}</p>;
  const told = tellReassembly(list, plan, clock, say);
  const open = isLayingOut ? undefined : told.shells.find((one) => one.shell.id === shell?.id);
  const count = (is: (one: ShellTold) => boolean) => told.shells.filter(is).length;
  const head = isLayingOut
    ? say.reassemble.head(
        count((one) => one.isComplete),
        told.shells.length,
      )
    : say.reassemble.headDone(
        count((one) => one.isDone),
        told.shells.length,
      );
  return (
    <section class="reassemble-sheet" aria-label={say.reassemble.whichInWhich}>
      {open ? <OpenShell told={open} say={say} /> : null}
      <Tangles bench={bench} reassembly={reassembly} say={say} />
      <h2 class="reassemble-head">{head}</h2>
      <ul class="reassemble-rows">
        {told.shells.map((one) => (
          <ShellRow key={one.shell.id} told={one} isOpen={one === open} say={say} />
        ))}
      </ul>
      <Lines head={say.reassemble.wouldHelp} lines={told.help} />
      <Lines
        head={say.reassemble.staysOver}
        lines={told.over.map(({ piece, says }) => `${pieceName(piece, say)}. ${says.join(" ")}`)}
      />
      <Lines
        head={say.reassemble.barred}
        lines={plan.barred.map((piece) => `${pieceName(piece, say)}. ${say.reassemble.barredSays}`)}
      />
      <Lines
        head={say.reassemble.others}
        lines={plan.others.map((piece) => `${pieceName(piece, say)}. ${say.reassemble.othersSay}`)}
      />
    </section>
  );
}

/** The shell in hand, read at arm's length: what to take next. */
function OpenShell(props: { readonly told: ShellTold; readonly say: Words }) {
  const { told, say } = props;
  return (
    <div class="reassemble-open">
      <h2 class="reassemble-open-head">
        {say.reassemble.goesInHere(midSentence(pieceName(told.shell, say)))}
      </h2>
      <ul class="reassemble-open-places">
        {told.places.map((place) => (
          <li key={place.key}>
            <PlaceMark place={place} width={72} />
            <div>
              <p class="reassemble-open-layer">
                {place.kind} {place.layer?.number ? <TagNumber number={place.layer.number} /> : null}
              </p>
              <p class="reassemble-says">{place.says}</p>
            </div>
          </li>
        ))}
      </ul>
    </div>
  );
}

function ShellRow(props: { readonly told: ShellTold; readonly isOpen: boolean; readonly say: Words }) {
  const { told, isOpen, say } = props;
  const { shell, places } = told;
  return (
    <li class="reassemble-row" aria-current={isOpen ? "true" : undefined}>
      <p class="reassemble-shell">
        <b>{shell.kind.name}</b> {shell.number ? <TagNumber number={shell.number} /> : say.noTag}
        {shell.label.size ? <span class="reassemble-says">{` ${shell.label.size}`}</span> : null}
      </p>
      <ul class="reassemble-places">
        {places.map((place) => (
          <li key={place.key} class="reassemble-place">
            <PlaceMark place={place} width={56} />
            <p>
              <b>{place.kind}</b> {place.layer?.number ? <TagNumber number={place.layer.number} /> : null}{" "}
              <span class="reassemble-says">{place.says}</span>
            </p>
          </li>
        ))}
      </ul>
    </li>
  );
}

/** Whole stitches for what is in, needle holes for what is to go in, nothing where nothing goes in. */
function PlaceMark(props: { readonly place: PlaceTold; readonly width: number }) {
  const { planned } = props.place;
  const sewn = planned?.verdict === "accepted" ? "accepted" : "match";
  if (!planned) return <span class="reassemble-no-mark" style={{ width: `${props.width}px` }} />;
  return <StitchMark mark={planned.by === "in place" ? sewn : "none"} width={props.width} />;
}

function Lines(props: { readonly head: string; readonly lines: readonly string[] }) {
  if (props.lines.length === 0) return null;
  return (
    <>
      <h2 class="reassemble-head">{props.head}</h2>
      <ul class="reassemble-lines">
        {props.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

function Tangles(props: { readonly bench: Bench; readonly reassembly: Reassembly; readonly say: Words }) {
  const { bench, reassembly, say } = props;
  const { list, plan, lying } = reassembly;
  const steps = list && plan ? findTangles(list, plan) : [];
  if (!list || steps.length === 0) return null;
  const name = (id: (typeof steps)[number]["shell"]) => midSentence(pieceName(briefOf(list, id), say));
  const out = steps.filter((step) => step.do === "separate");
  const evidence = new Map(lying.map((one) => [one.piece, one.evidence]));
  const handled = out.flatMap(({ layer }) => {
    const how = evidence.get(layer);
    return how === "scanned" || how === "typed" ? [{ piece: layer, evidence: how }] : [];
  });
  return (
    <div class="reassemble-tangle">
      <h2 class="reassemble-head">{say.reassemble.tangled}</h2>
      <p>{say.reassemble.tangledSays(steps.length)}</p>
      <ol class="reassemble-steps">
        {steps.map((step) => (
          <li key={`${step.do} ${step.layer}`}>
            {step.do === "separate"
              ? say.reassemble.takeOut(name(step.layer), name(step.shell))
              : say.reassemble.putIn(name(step.layer), name(step.shell))}
          </li>
        ))}
      </ol>
      {handled.length > 0 ? (
        <Button
          onPress={() =>
            void bench.actOn(
              "separateLayers",
              { pieces: handled },
              say.reassemble.separated(handled.length),
              say.reassemble.notSeparated,
            )
          }
        >
          {say.reassemble.separateAll(handled.length)}
        </Button>
      ) : null}
    </div>
  );
}
