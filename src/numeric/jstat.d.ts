/** Types of the few parts of the jstat library that distributions.ts uses; the library ships none. */
declare module 'jstat' {
  interface Jstat {
    readonly normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
    readonly studentt: {
      cdf(x: number, degrees: number): number;
      inv(p: number, degrees: number): number;
    };
    readonly chisquare: {
      cdf(x: number, degrees: number): number;
      inv(p: number, degrees: number): number;
    };
    readonly noncentralt: {
      cdf(x: number, degrees: number, noncentrality: number): number;
    };
  }
  const jstat: Jstat;
  export default jstat;
}
