/** Text with tag numbers in it: wherever three groups of four symbols stand, they are set in the mono face. */
const NUMBER = /\b([0-9A-HJKMNP-TV-Z]{4} [0-9A-HJKMNP-TV-Z]{4} [0-9A-HJKMNP-TV-Z]{4})\b/g;

/** Draws a sentence with its tag numbers in mono. Years and sizes stay as they are: a number has all three groups. */
export function Spoken(props: { readonly text: string }) {
  const parts = props.text.split(NUMBER);
  return (
    <>
      {parts.map((part, at) =>
        at % 2 === 1 ? (
          <span class="num" key={`${at}${part}`}>
            {part}
          </span>
        ) : (
          part
        ),
      )}
    </>
  );
}
