/** The tag of a piece: its code drawn from the modules that it is given, and the number in three groups. */
export type TagFigureProps = {
  /** The number as twelve symbols, with or without gaps. */
  readonly number: string;
  /** Rows of modules, true is black; without it only the number is drawn. */
  readonly modules?: readonly (readonly boolean[])[] | undefined;
  /** "Tag C7K3 F92C XTKK": how it is read aloud. */
  readonly name: string;
};

/** Draws the tag black on white in light and dark alike. */
export function TagFigure(props: TagFigureProps) {
  const groups = tagGroups(props.number);
  return (
    <div class="tag-figure" role="img" aria-label={props.name}>
      {props.modules ? <TagModules modules={props.modules} /> : null}
      <span class="tag-figure-number">
        {groups.map((group, at) => (
          <span key={`${at}${group}`}>{group}</span>
        ))}
      </span>
    </div>
  );
}

function TagModules(props: { readonly modules: readonly (readonly boolean[])[] }) {
  const size = props.modules.length;
  return (
    <svg
      class="tag-figure-code"
      viewBox={`0 0 ${size} ${size}`}
      shape-rendering="crispEdges"
      aria-hidden="true"
    >
      <path d={modulesPath(props.modules)} />
    </svg>
  );
}

/** Writes the black modules as one path, a run of neighbours as one rectangle. */
export function modulesPath(modules: readonly (readonly boolean[])[]): string {
  let path = "";
  modules.forEach((row, y) => {
    let x = 0;
    while (x < row.length) {
      const start = x;
      while (row[x] === true) x += 1;
      if (x > start) path += `M${start} ${y}h${x - start}v1h${start - x}z`;
      x += 1;
    }
  });
  return path;
}

/** Parts a number into groups of four, whatever gaps it came with. */
export function tagGroups(number: string): readonly string[] {
  return number.replace(/\s+/g, "").match(/.{1,4}/g) ?? [];
}

/** Draws a tag number in a line of text, 4-4-4, in the mono face. */
export function TagNumber(props: { readonly number: string }) {
  return <span class="num">{tagGroups(props.number).join(" ")}</span>;
}
