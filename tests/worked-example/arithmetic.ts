/**
 * Plain arithmetic as it stands on paper: `355.1 + (187.1 + 1000) ÷ 2500 × 24`.
 *
 * Numbers, + − × ÷ ^, brackets, √( ), and sin( ) and cos( ) of degrees. Nothing of the project is used.
 */

/** The value of an expression; throws where it cannot be read to its end. */
export function workOut(expression: string): number {
  const tokens = expression.match(/\d+(?:\.\d+)?|sin|cos|[+−×÷^()√]|\S/g) ?? [];
  let at = 0;
  const next = (): string => tokens[at] ?? 'the end';
  const take = (expected: string): void => {
    if (next() !== expected)
      throw new Error(`found ${next()}, expected ${expected}: ${expression}`);
    at++;
  };

  const sum = (): number => {
    let value = product();
    while (next() === '+' || next() === '−') {
      const sign = tokens[at++] === '+' ? 1 : -1;
      value += sign * product();
    }
    return value;
  };
  const product = (): number => {
    let value = power();
    while (next() === '×' || next() === '÷') {
      const isTimes = tokens[at++] === '×';
      const other = power();
      value = isTimes ? value * other : value / other;
    }
    return value;
  };
  const power = (): number => {
    const base = atom();
    if (next() !== '^') return base;
    at++;
    return base ** power();
  };
  const bracket = (): number => {
    take('(');
    const value = sum();
    take(')');
    return value;
  };
  const atom = (): number => {
    const token = next();
    if (token === '(') return bracket();
    at++;
    if (token === '√') return Math.sqrt(bracket());
    if (token === 'sin') return Math.sin((bracket() * Math.PI) / 180);
    if (token === 'cos') return Math.cos((bracket() * Math.PI) / 180);
    if (token === '−') return -atom();
    if (/^\d/.test(token)) return Number(token);
    throw new Error(`found ${token}, expected a number: ${expression}`);
  };

  const value = sum();
  if (at < tokens.length) throw new Error(`found ${next()}, expected the end: ${expression}`);
  return value;
}
