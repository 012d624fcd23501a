/** A sentence of the record: tag numbers in the mono face, entry numbers as links to their place on the page. */
import { TagNumber } from "../../look/tag-figure.tsx";

const PARTS = /([0-9A-Z]{4} [0-9A-Z]{4} [0-9A-Z]{4}|\bentry \d+)/;

/** Draws the sentence; without `linked` entry numbers stay plain words. */
export function Said(props: { readonly text: string; readonly linked?: boolean | undefined }) {
  return (
    <>
      {props.text.split(PARTS).map((part, at) => {
        if (at % 2 === 0) return part;
        if (!part.startsWith("entry ")) return <TagNumber key={at} number={part} />;
        if (!props.linked) return part;
        return (
          <a key={at} href={`#entry-${part.slice(6)}`}>
            {part}
          </a>
        );
      })}
    </>
  );
}
