/** Verdicts, tray states, refusal, notices, buttons and focus on one page. */
import { Button, Confirm } from "../buttons.tsx";
import { Choice } from "../choice.tsx";
import { GarmentFigure, type GarmentFigureProps } from "../garment.tsx";
import { Notice } from "../notice.tsx";
import { Reasons } from "../reasons.tsx";
import { SeamDrawing } from "../seam-drawing.tsx";
import { Spoken } from "../spoken-text.tsx";
import { StitchMark } from "../stitches.tsx";
import type { VerdictName } from "../verdict-names.ts";
import { verdictWord } from "../verdict-phrases.ts";
import { nothing, W } from "./sample-data.ts";

const VERDICTS: readonly {
  readonly verdict: VerdictName;
  readonly left: string;
  readonly right: string;
  readonly says: string;
}[] = [
  { verdict: "match", left: "46 32 R", right: "46 32 R", says: "Even run. The labels say the same." },
  {
    verdict: "accepted",
    left: "LK-2",
    right: "LK-3",
    says: "Crosses sewn over the gap. The maker’s statement of 2 Sep 2026 accepts it.",
  },
  {
    verdict: "differs",
    left: "46 32 R",
    right: "44 32 R",
    says: "The seam is open, the thread snapped. Stops.",
  },
  {
    verdict: "cannot-tell",
    left: "46 32 R",
    right: "not legible",
    says: "Long loose basting. Stops as differs does.",
  },
];

const COATS: readonly (Pick<GarmentFigureProps, "liner" | "drd" | "verdict"> & {
  readonly head: string;
  readonly says: string;
})[] = [
  {
    liner: "missing",
    drd: "missing",
    verdict: "none",
    head: "Shell only.",
    says: "Liner and DRD not scanned.",
  },
  { liner: "here", drd: "here", verdict: "cannot-tell", head: "Cannot tell.", says: "Liner basted in." },
  { liner: "here", drd: "here", verdict: "accepted", head: "Accepted.", says: "Liner crossed in." },
  { liner: "here", drd: "here", verdict: "match", head: "Labels match.", says: "Liner sewn in." },
];

export function PartsPage() {
  return (
    <main class="sample-parts">
      <section class="sample-band">
        <h1 class="t-head">What the label check says, as a seam and as one mark</h1>
        <div class="sample-verdicts">
          {VERDICTS.map((one) => (
            <div key={one.verdict}>
              <div class="sample-seam">
                <b>{one.left}</b>
                <SeamDrawing verdict={one.verdict} height={132} />
                <b>{one.right}</b>
              </div>
              <p class={`sample-word sample-${one.verdict}`}>
                <StitchMark mark={one.verdict} width={72} /> {verdictWord(one.verdict, W)}
              </p>
              <p class="t-second">{one.says}</p>
            </div>
          ))}
        </div>
        <h2 class="t-head">The coat on the tray</h2>
      </section>
      <section class="sample-coats cutting-table">
        {COATS.map((coat) => (
          <figure key={coat.head}>
            <GarmentFigure
              shape="coat"
              shell="here"
              liner={coat.liner}
              drd={coat.drd}
              verdict={coat.verdict}
              name={coat.says}
            />
            <figcaption>
              <b>{coat.head}</b> {coat.says}
            </figcaption>
          </figure>
        ))}
      </section>
      <section class="sample-band sample-columns">
        <div>
          <RefusedIssue />
          <Notice kind="waiting" head={<Spoken text={W.askingFor("N91H PDFT 33TX")} />}>
            {W.slowServer}
          </Notice>
          <Notice kind="fault" head={W.notWritten}>
            Another bench moved this liner at 10:13. {W.trayKept} <b>{W.next}</b> look it up, then confirm
            again.
          </Notice>
        </div>
        <div>
          <Notice kind="offline" head={W.noNetwork("10:02")}>
            {W.actsKept(14)}
          </Notice>
          <Notice kind="unknown" head={W.notInRegister}>
            <Spoken text="RK69 JC3F 95C0 is well formed. Register the piece, or scan the maker’s label again." />
          </Notice>
          <Notice kind="empty" head={W.trayEmpty}>
            {W.trayEmptyNext}
          </Notice>
          <Buttons />
        </div>
      </section>
    </main>
  );
}

function RefusedIssue() {
  return (
    <Reasons
      head="Not issued. Two reasons."
      nextWord={W.next}
      reasons={[
        {
          key: "1",
          mark: "differs",
          what: <Spoken text="Coat liner HJ9V 2939 03KX differs from its shell." />,
          why: "Size: shell 46 32 R, liner 44 32 R.",
          next: <Spoken text="take it out and scan KD0R T429 TH33, on Rack C1." />,
        },
        {
          key: "2",
          mark: "hold",
          what: <Spoken text="Hood VFG7 6614 PG1P is on hold: finding." />,
          why: "Odile Verrill placed it on 18 Nov; an inspector lifts it.",
          next: "scan another hood. Nothing was issued.",
        },
      ]}
    />
  );
}

function Buttons() {
  return (
    <>
      <div class="button-row">
        <Confirm label="Move 6 pieces" keyHint="Enter" onPress={nothing} />
        <Confirm label="Issue: 2 reasons" blocked onPress={nothing} />
      </div>
      <div class="button-row">
        <Button onPress={nothing}>Focused</Button>
        <Button onPress={nothing}>Plain</Button>
        <Button weight="quiet" onPress={nothing}>
          Quiet
        </Button>
        <Choice
          name="dryness"
          legend="Dryness"
          hideLegend
          options={[
            { value: "dry", label: "Dry" },
            { value: "wet", label: "Wet" },
          ]}
          value="dry"
          onChange={nothing}
        />
      </div>
    </>
  );
}
