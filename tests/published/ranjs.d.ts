/** Types of the part of the ranjs library that serves as referee; the library ships none. */
declare module 'ranjs' {
  interface Distribution {
    cdf(x: number): number;
    q(p: number): number;
  }
  type DistributionMaker = new (...parameters: number[]) => Distribution;
  const ranjs: {
    readonly dist: Readonly<
      Record<'Normal' | 'StudentT' | 'Chi2' | 'NoncentralT', DistributionMaker>
    >;
  };
  export default ranjs;
}
