/** The two textures as SVG patterns: the grid weave of shell cloth and the quilt of a liner. Ids are given per figure. */
export type ClothIds = { readonly weave: string; readonly quilt: string };

/** Names the patterns of one figure, so that several figures may stand on one page. */
export function clothIds(figure: string): ClothIds {
  return { weave: `weave-${figure}`, quilt: `quilt-${figure}` };
}

/** Defines both patterns: pairs of 1 px lines 2.5 apart every 18 px; 1.6 px lines at ±45° every 26 px. */
export function ClothPatterns(props: { readonly ids: ClothIds }) {
  return (
    <defs>
      <pattern id={props.ids.weave} width="18" height="18" patternUnits="userSpaceOnUse">
        <rect class="cloth-shell" width="18" height="18" />
        <path class="cloth-weave" d="M7.75 0V18M10.25 0V18M0 7.75H18M0 10.25H18" />
      </pattern>
      <pattern
        id={props.ids.quilt}
        width="26"
        height="26"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect class="cloth-liner" width="26" height="26" />
        <path class="cloth-quilt" d="M13 0V26M0 13H26" />
      </pattern>
    </defs>
  );
}
