/** The library brings no types. Takes a square table of costs and gives pairs of row and column at the least total. */
declare module "munkres-js" {
  // biome-ignore lint/style/noDefaultExport: this is how a module of the older kind is taken in
  export default function computeMunkres(costs: number[][]): [row: number, column: number][];
}
