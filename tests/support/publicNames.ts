import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const FACE = `${ROOT}packages/core/src/index.ts`;

const OPTIONS: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2023,
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  lib: ['lib.es2023.d.ts'],
  types: [],
  strict: true,
  exactOptionalPropertyTypes: true,
  noEmit: true,
  skipLibCheck: true,
  paths: { '@roastsim/core': [FACE] },
};

/** A name the library exports, and what is written about it. */
export interface PublicName {
  readonly name: string;
  readonly kind: 'class' | 'function' | 'constant' | 'type';
  readonly doc: string;
  /** TypeScript, one text an example. */
  readonly examples: readonly string[];
}

/** What the library's face exports. */
export interface Face {
  readonly names: readonly PublicName[];
  /** The example of the whole package, from which the others go on. */
  readonly opening: string;
  readonly program: ts.Program;
}

/** Reads the face of the library by its sources. */
export function readFace(): Face {
  const program = ts.createProgram([FACE], OPTIONS);
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(FACE);
  const module = source && checker.getSymbolAtLocation(source);
  if (source === undefined || module === undefined) throw new Error(`${FACE} exports nothing`);
  const names = checker.getExportsOfModule(module).map((exported): PublicName => {
    const symbol =
      (exported.flags & ts.SymbolFlags.Alias) !== 0 ? checker.getAliasedSymbol(exported) : exported;
    return {
      name: exported.name,
      kind: kindOf(symbol, checker),
      doc: ts.displayPartsToString(symbol.getDocumentationComment(checker)).trim(),
      examples: symbol
        .getJsDocTags(checker)
        .filter((tag) => tag.name === 'example')
        .map((tag) => ts.displayPartsToString(tag.text)),
    };
  });
  // a comment with @packageDocumentation is nobody's, so that it is read as text
  const [head = ''] = /\/\*\*[\s\S]*?\*\//.exec(source.text) ?? [];
  const [, opening = ''] = /@example\n([\s\S]*?)\n \*\n/.exec(head) ?? [];
  return { names, opening: opening.replace(/^ \* ?/gm, ''), program };
}

function kindOf(symbol: ts.Symbol, checker: ts.TypeChecker): PublicName['kind'] {
  if ((symbol.flags & ts.SymbolFlags.Class) !== 0) return 'class';
  if ((symbol.flags & ts.SymbolFlags.Value) === 0) return 'type';
  return checker.getTypeOfSymbol(symbol).getCallSignatures().length > 0 ? 'function' : 'constant';
}

/** What the compiler has against a file that imports the library by its name. */
export function complaintsAbout(text: string, before: ts.Program): string[] {
  const file = `${ROOT}tests/library/virtual.mts`;
  const host = ts.createCompilerHost(OPTIONS);
  const read = host.getSourceFile.bind(host);
  host.getSourceFile = (name, ...rest) =>
    name === file ? ts.createSourceFile(name, text, OPTIONS.target!) : read(name, ...rest);
  const known = host.fileExists.bind(host);
  host.fileExists = (name) => name === file || known(name);
  const program = ts.createProgram([file], OPTIONS, host, before);
  const source = program.getSourceFile(file);
  return ts.getPreEmitDiagnostics(program, source).map(({ messageText, start = 0 }) => {
    const line = text.slice(0, start).split('\n').length;
    const said = ts.flattenDiagnosticMessageText(messageText, ' ');
    return `${text.split('\n')[line - 1].trim()}: ${said}`;
  });
}
