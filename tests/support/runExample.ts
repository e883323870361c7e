import ts from 'typescript';

/** A value an example prints beside a line: `kelvin(0) // => 273.15`. */
interface Claim {
  readonly line: string;
  readonly expected: ts.Expression;
}

const MARK = '// => ';

/** JavaScript of an example, where every line with a `// =>` hands its value to `claim(index, value)`. */
function compiled(example: string): { readonly js: string; readonly claims: readonly Claim[] } {
  const source = parsed(example);
  const claims: Claim[] = [];
  let text = '';
  let at = 0;
  for (const statement of source.statements) {
    const after = example.slice(statement.end).split('\n', 1)[0].trimStart();
    if (!after.startsWith(MARK)) continue;
    const line = statement.getText(source);
    if (!ts.isExpressionStatement(statement)) throw new Error(`"${line}" has no value to compare`);
    text += `${example.slice(at, statement.getStart(source))}claim(${claims.length}, (${line}))`;
    at = statement.end;
    claims.push({ line, expected: printedValue(after.slice(MARK.length)) });
  }
  text += example.slice(at);
  const asked = example.split(MARK).length - 1;
  if (claims.length !== asked) throw new Error(`${asked} values, ${claims.length} lines of them`);
  const { outputText } = ts.transpileModule(text, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  });
  return { js: outputText, claims };
}

const parsed = (text: string): ts.SourceFile =>
  ts.createSourceFile('example.ts', text, ts.ScriptTarget.ES2022, true);

function printedValue(text: string): ts.Expression {
  const [statement] = parsed(`(${text})`).statements;
  if (statement === undefined || !ts.isExpressionStatement(statement)) {
    throw new Error(`"${text}" is no value`);
  }
  return statement.expression;
}

/** Whether a value is what is printed: numbers to the digits printed, of objects the fields printed. */
function isPrinted(value: unknown, printed: ts.Expression): boolean {
  if (ts.isParenthesizedExpression(printed)) return isPrinted(value, printed.expression);
  const text = printed.getText();
  if (/^-?[\d.]/.test(text)) {
    const decimals = /\.(\d+)$/.exec(text)?.[1].length ?? 0;
    return Math.abs(Number(value) - Number(text)) <= 0.5 * 10 ** -decimals + 1e-12;
  }
  if (ts.isStringLiteral(printed)) return value === printed.text;
  if (ts.isArrayLiteralExpression(printed)) {
    const { elements } = printed;
    if (!Array.isArray(value) || value.length !== elements.length) return false;
    return elements.every((element, i) => isPrinted(value[i], element));
  }
  if (text === 'Infinity') return value === Number.POSITIVE_INFINITY;
  if (text === 'true' || text === 'false') return value === (text === 'true');
  throw new Error(`nothing here can compare with "${text}"`);
}

/**
 * Runs an example and compares the values it prints.
 *
 * @param scope - names it may use
 * @returns what is not as printed
 * @throws whatever the example throws
 */
export async function runExample(
  example: string,
  scope: Readonly<Record<string, unknown>>,
): Promise<string[]> {
  const { js, claims } = compiled(example);
  const wrong: string[] = [];
  const claim = (index: number, value: unknown): void => {
    const { line, expected } = claims[index];
    if (isPrinted(value, expected)) return;
    wrong.push(`${line} is ${JSON.stringify(value)}, not ${expected.getText()}`);
  };
  const names = Object.keys(scope);
  const AsyncFunction = Object.getPrototypeOf(async () => {}).constructor;
  // a block of its own, so that an example may use a name of the scope for something else
  await new AsyncFunction(...names, 'claim', `{\n${js}\n}`)(...Object.values(scope), claim);
  return wrong;
}
