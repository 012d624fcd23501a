/** The largest file that the server reads. */
export const MOST_FILE_BYTES = 20 * 1024 * 1024;

/** Reads a chosen file as base64, by the browser's own encoder, so that 20 MB do not hold the page up. */
export function asBase64(file: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^data:[^,]*,?/, ""));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(file);
  });
}
