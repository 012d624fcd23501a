/** Tape and hem around a sample of the bench; typing is kept so that the scan field lives. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Hem, type HemProps } from "../hem.tsx";
import { Page } from "../page.tsx";
import { Tape, type TapeProps } from "../tape.tsx";
import { INEZ, nothing, W } from "./sample-data.ts";

export type BenchFrameProps = {
  readonly tape: Pick<TapeProps, "verb" | "second" | "writes" | "slim" | "person">;
  readonly hem: Pick<HemProps, "note" | "end" | "threaded"> & {
    readonly hint: string;
    readonly phoneScan: string;
    readonly phoneSecond?: ComponentChildren | undefined;
  };
  readonly children: ComponentChildren;
};

export function BenchFrame(props: BenchFrameProps) {
  const [typed, setTyped] = useState("");
  const [typing, setTyping] = useState(false);
  const { hint, phoneScan, phoneSecond, ...hem } = props.hem;
  return (
    <Page
      tape={
        <Tape
          person={INEZ}
          menuLabel={W.menu}
          changeLabel={W.changeMode}
          onMenu={nothing}
          onChangeMode={nothing}
          {...props.tape}
        />
      }
      hem={
        <Hem
          {...hem}
          scan={{ label: W.tagNumber, hint, value: typed, onInput: setTyped }}
          person={props.tape.person ?? INEZ}
          phone={{
            scanLabel: phoneScan,
            onScan: nothing,
            typeLabel: W.typeATag,
            onType: () => setTyping(!typing),
            typing,
            second: phoneSecond,
          }}
        />
      }
    >
      {props.children}
    </Page>
  );
}
