/** On which side this device stands. It is kept on the device: a bench that is moved is told anew. */
import { useState } from "preact/hooks";
import { Choice } from "../../look/choice.tsx";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import { type BenchSide, keepSide, sideOfBench } from "../bench/side.ts";

const words = CLEANING_WORDS;

export function SideOfBench() {
  const [side, setSide] = useState<BenchSide>(sideOfBench());
  return (
    <section class="page-section">
      <Choice
        name="bench-side"
        legend={words.sideOfBench}
        value={side}
        options={(["not said", "soiled", "clean"] as const).map((value) => ({
          value,
          label: words.sides[value],
        }))}
        onChange={(value) => {
          keepSide(value);
          setSide(value);
        }}
      />
      <p class="field-note">{words.sideOfBenchSays}</p>
    </section>
  );
}
