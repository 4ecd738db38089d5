/** A term that a model may have, against the same model solved with the term as one of its own. */
import { describe, test } from 'vitest';
import { EliminatedTerms } from '../../src/numeric/eliminated-terms.ts';
import { OptionalTerm } from '../../src/numeric/optional-term.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const N = 9;
const SD = 0.6;
const SHARE = 0.3;

describe('[LE3] a linear model with a term that three models in ten have', () => {
  const random = createRandom(8);
  const column = (shape: (i: number) => number): number[] =>
    Array.from({ length: N }, (_, i) => shape(i));
  const sure = [column(() => 1), column((i) => i / 4)];
  const maybe = column((i) => Math.sin((Math.PI * i) / N));
  const own = [column((i) => Math.max(0, i - 4)), column((i) => Math.max(0, i - 6) ** 2)];
  const data = column((i) => 1 + i / 3 + random.normal());
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + value * b[i], 0);

  const sureTerms = new EliminatedTerms([0.5, -0.2], [Infinity, 0.7]);
  sureTerms.eliminate(
    (a, b) => dot(sure[a], sure[b]),
    (a) => dot(sure[a], data),
    dot(data, data),
  );
  const term = new OptionalTerm(2, SD, SHARE);
  const columns = [...sure, maybe, data];
  term.set(sureTerms, (a, b) => dot(columns[a], columns[b]), 2, 3);

  const all = [...sure, maybe];
  const whole = new EliminatedTerms([0.5, -0.2, 0], [Infinity, 0.7, SD]);
  whole.eliminate(
    (a, b) => dot(all[a], all[b]),
    (a) => dot(all[a], data),
    dot(data, data),
  );

  /** A column reduced in either way: its products with what is eliminated, solved, and with the data. */
  const reduce = (terms: EliminatedTerms, among: readonly number[][], of: readonly number[]) => {
    const solved = Float64Array.from(among, (each) => dot(each, of));
    return { withData: terms.reduce(solved, dot(of, data)), solved };
  };

  test('[LE3] leaves of the data what the whole model leaves', () => {
    expectNear(term.left(sureTerms.dataSquare, term.data, term.data), whole.dataSquare, 1e-9);
  });

  test('[LE3] leaves of further columns what the whole model leaves', () => {
    const [a, b] = own.map((each) => reduce(sureTerms, sure, each));
    const [wholeA, wholeB] = own.map((each) => reduce(whole, all, each));
    const [withA, withB] = [a, b].map(({ solved }, k) =>
      term.withColumn(sureTerms, dot(own[k], maybe), solved),
    );
    expectNear(term.left(a.withData, withA, term.data), wholeA.withData, 1e-9);
    const product = sureTerms.left(dot(own[0], own[1]), a.solved, b.solved);
    const wholeProduct = whole.left(dot(own[0], own[1]), wholeA.solved, wholeB.solved);
    expectNear(term.left(product, withA, withB), wholeProduct, 1e-9);
  });

  test('[LE3] costs the evidence what it adds to the determinants, and its odds', () => {
    const priorLogOdds = Math.log(SHARE / (1 - SHARE));
    expectNear(term.logOdds - priorLogOdds, sureTerms.halfLogDet - whole.halfLogDet, 1e-9);
  });
});
