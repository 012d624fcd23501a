export interface Size {
  readonly width: number;
  readonly height: number;
}
export interface Box extends Size {
  readonly left: number;
  readonly top: number;
}

/** The corners drawn over the picture, as shares of the picture's element (web/look/camera-panel.css). */
export const AIMING_BOX: Box = { left: 0.15, top: 0.24, width: 0.7, height: 0.52 };
/** More pixels than this across do not read better, they only take longer. */
const WIDEST_PX = 1_024;

/**
 * Finds the part of the video, in its own pixels, that lies under the aiming box of an element which shows the
 * video with `object-fit: cover`. An element without a size counts as one of the video's own shape.
 */
export function videoUnderBox(video: Size, element: Size, box: Box = AIMING_BOX): Box {
  const shown = element.width > 0 && element.height > 0 ? element : video;
  const scale = Math.max(shown.width / video.width, shown.height / video.height);
  const visible = { width: shown.width / scale, height: shown.height / scale };
  const left = Math.round((video.width - visible.width) / 2 + box.left * visible.width);
  const top = Math.round((video.height - visible.height) / 2 + box.top * visible.height);
  return {
    left,
    top,
    width: Math.min(video.width - left, Math.round(box.width * visible.width)),
    height: Math.min(video.height - top, Math.round(box.height * visible.height)),
  };
}

/** How large the cut-out is handed to the decoder: never enlarged, at most WIDEST_PX across. */
export function decodedSize(cut: Size): Size {
  const scale = Math.min(1, WIDEST_PX / cut.width);
  return { width: Math.round(cut.width * scale), height: Math.round(cut.height * scale) };
}
