/** Builds web/dist with the given Node unless it was built from these very inputs. Returns the error to show, if any. */
export function buildPages(node: string): string | undefined;
