/** What is used of the package `jstat`, which brings no types. */
declare module 'jstat' {
  export interface JStat {
    gammaln(x: number): number;
    /** Regularised incomplete beta function. */
    ibeta(x: number, a: number, b: number): number;
    readonly normal: {
      cdf(x: number, mean: number, standardDeviation: number): number;
      inv(p: number, mean: number, standardDeviation: number): number;
    };
    readonly studentt: { inv(p: number, freedom: number): number };
  }
  const module: { readonly jStat: JStat };
  export default module;
}
