import type { AstExpression } from '@borgar/fx/xlsx';
import { PREFIX } from '../../../worksheet/constants';
import { plainName } from '../../xlsx/formula';
import type { Book } from './book';
import { callOf } from './calls';
import { FORMS, TRANSPARENT } from './forms';
import type { Frame } from './frame';
import { Lacking } from './lacking';
import { lambdaOf, variableAt } from './lambdas';
import { applied, appliedToOne, LAST_STEP, OPERATORS, SIGNS } from './operators';
import { around, intersection, ownCellOf, readArea, WrittenArea, type Seat } from './references';
import {
  CALC,
  ErrorValue,
  isMatrix,
  Lambda,
  REF,
  Reference,
  VALUE,
  type ErrorCode,
  type Matrix,
  type Scalar,
  type Value,
} from './values';
import type { CellFormat } from './sheetStore';
import { variableName } from './variableName';
import { meaningOf, tableReference, wordOf } from './words';

export type Run = (frame: Frame) => Value;
/** As `Run`, cells read. */
export type RunOperand = (frame: Frame) => Scalar | Matrix;
export type Node = AstExpression;

const CODES: ReadonlySet<string> = new Set<ErrorCode>([
  '#NULL!',
  '#DIV/0!',
  '#VALUE!',
  '#REF!',
  '#NAME?',
  '#NUM!',
  '#N/A',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
]);

/** Names within names. */
const MOST_NESTED = 50;

/** Makes functions of the parts of a formula's tree. */
export class Compiler {
  readonly areas: WrittenArea[] = [];
  readonly functions = new Set<string>();
  isVolatile = false;
  /** Variables that are known here, the innermost last. */
  variables: readonly string[] = [];
  private namesWithin: readonly string[] = [];

  constructor(
    readonly book: Book,
    public seat: Seat,
    /** Whether blocks of cells become the one value of the formula's own row or column. */
    public intersects: boolean,
  ) {}

  /** The formula's last step: a difference that is 0 in fifteen digits is 0. */
  last(node: Node): Run {
    const operator = node.type === 'BinaryExpression' ? LAST_STEP[node.operator] : undefined;
    if (node.type !== 'BinaryExpression' || !operator) return this.any(node);
    const [left, right] = node.arguments.map((one) => this.operand(one)) as [RunOperand, RunOperand];
    return (frame) => applied(operator, left(frame), right(frame), frame.dateSystem);
  }

  /** What a part comes to, references as such. */
  any(node: Node): Run {
    switch (node.type) {
      case 'Literal': {
        const { value } = node;
        return () => value;
      }
      case 'ErrorLiteral': {
        const error = new ErrorValue(CODES.has(node.value) ? (node.value as ErrorCode) : '#VALUE!');
        return () => error;
      }
      case 'ArrayExpression': {
        const matrix = node.elements.map((row) => row.map((one) => this.any(one)({} as Frame) as Scalar));
        return () => matrix;
      }
      case 'UnaryExpression':
        return this.unary(node.operator, node.arguments[0]!);
      case 'BinaryExpression':
        return this.binary(node.operator, node.arguments[0]!, node.arguments[1]!);
      case 'ReferenceIdentifier':
        return this.identifier(node.value, node.kind);
      case 'CallExpression':
        return this.call(node.callee, node.arguments);
      case 'LambdaExpression':
        return lambdaOf(
          this,
          node.params.map(({ name }) => name),
          node.body,
        );
      case 'LetExpression':
        return this.letting(
          node.declarations.map(({ id, init }) => [id.name, init]),
          node.body,
        );
      default:
        throw new Lacking('a way of writing formulas');
    }
  }

  /** What a part comes to with its cells read. */
  operand(node: Node | null): RunOperand {
    if (node === null) return () => null;
    if (node.type === 'ReferenceIdentifier' && node.kind === 'range') {
      const area = this.area(node.value);
      if (area.isOneCell) {
        return (frame) => {
          const { sheet, top, left } = area.from(frame);
          return frame.source.read(sheet, top, left);
        };
      }
      return this.reading((frame) => area.referenceFrom(frame));
    }
    return this.reading(this.any(node));
  }

  private reading(run: Run): RunOperand {
    const { intersects } = this;
    return (frame) => {
      const value = run(frame);
      if (value instanceof Reference) return intersects ? ownValue(frame, value) : frame.wholeOf(value);
      if (value instanceof Lambda) throw CALC;
      return value;
    };
  }

  /** Compiles with blocks of cells kept whole. */
  whole<T>(compile: () => T): T {
    const before = this.intersects;
    this.intersects = false;
    try {
      return compile();
    } finally {
      this.intersects = before;
    }
  }

  /** Compiles with one variable more. */
  with<T>(names: readonly string[], compile: () => T): T {
    const before = this.variables;
    this.variables = [...before, ...names.map((name) => variableName(name))];
    try {
      return compile();
    } finally {
      this.variables = before;
    }
  }

  /** How the result of a formula reads. */
  formatOf(node: Node): CellFormat | 'passed' | undefined {
    if (node.type === 'ReferenceIdentifier') return node.kind === 'range' ? 'passed' : undefined;
    if (node.type === 'LetExpression') return 'passed';
    if (node.type === 'UnaryExpression') {
      return node.operator === '@' || node.operator === '#' ? 'passed' : undefined;
    }
    if (node.type !== 'CallExpression' || node.callee.type !== 'Identifier') return undefined;
    const name = plainName(node.callee.name).toUpperCase();
    if (TRANSPARENT.has(name) || name.startsWith(PREFIX)) return 'passed';
    return this.book.builtIn(name)?.format;
  }

  private unary(operator: string, inner: Node): Run {
    if (operator === '#') {
      const run = this.any(inner);
      return (frame) => {
        const value = run(frame);
        if (!(value instanceof Reference)) throw VALUE;
        const { sheet, top, left } = value.area;
        const filled = frame.source.filledBy(sheet, top, left);
        return filled ? Reference.to(filled) : REF;
      };
    }
    if (operator === '@') {
      const run = this.any(inner);
      return (frame) => {
        const value = run(frame);
        if (value instanceof Reference) return value.isOneCell ? value : ownCellOf(value, frame);
        return isMatrix(value) ? value[0]![0]! : value;
      };
    }
    if (operator === '+') return this.any(inner);
    const sign = SIGNS[operator]!;
    const operand = this.operand(inner);
    return (frame) => appliedToOne(sign, operand(frame), frame.dateSystem);
  }

  private binary(operator: string, left: Node, right: Node): Run {
    if (operator === ':' || operator === ' ' || operator === ',')
      return this.referring(operator, left, right);
    const calculate = OPERATORS[operator];
    if (!calculate) throw new Lacking(`the sign ${operator}`);
    const [first, second] = [this.operand(left), this.operand(right)];
    return (frame) => applied(calculate, first(frame), second(frame), frame.dateSystem);
  }

  private referring(operator: string, left: Node, right: Node): Run {
    const [first, second] = [this.any(left), this.any(operator === ':' ? onSheetOf(left, right) : right)];
    // What lies between two references that are found by calculation is in neither.
    if (operator === ':') this.isVolatile = true;
    const join = operator === ':' ? around : operator === ' ' ? intersection : union;
    return (frame) => {
      const [a, b] = [first(frame), second(frame)];
      if (a instanceof ErrorValue) return a;
      if (b instanceof ErrorValue) return b;
      if (!(a instanceof Reference && b instanceof Reference)) throw VALUE;
      return join(a, b);
    };
  }

  private identifier(text: string, kind: string): Run {
    if (kind === 'range' || kind === 'beam') {
      const area = this.area(text);
      return (frame) => area.referenceFrom(frame);
    }
    return kind === 'table' ? tableReference(this, text) : (this.variable(text) ?? wordOf(this, text));
  }

  private area(text: string): WrittenArea {
    const area = readArea(text, this.seat, this.book);
    this.areas.push(area);
    return area;
  }

  /** Compiles what a defined name stands for: as seen from A1, blocks of cells kept whole, no variables known. */
  within<T>(name: string, compile: () => T): T {
    const key = name.toLowerCase();
    if (this.namesWithin.includes(key)) throw new Lacking(`the name ${name}, which refers to itself`);
    if (this.namesWithin.length >= MOST_NESTED) {
      throw new Lacking(`the name ${name}, which is nested too deeply`);
    }
    const { seat, namesWithin, variables } = this;
    this.seat = { sheet: seat.sheet, row: 0, column: 0 };
    this.namesWithin = [...namesWithin, key];
    this.variables = [];
    try {
      return this.whole(compile);
    } finally {
      this.seat = seat;
      this.namesWithin = namesWithin;
      this.variables = variables;
    }
  }

  private variable(name: string): Run | undefined {
    const at = this.variables.lastIndexOf(variableName(name));
    return at < 0 ? undefined : variableAt(this.variables.length - 1 - at);
  }

  private call(callee: Node | { type: 'Identifier'; name: string }, given: readonly (Node | null)[]): Run {
    if (callee.type !== 'Identifier') return this.invoking(this.any(callee), given);
    const name = plainName(callee.name);
    const variable = this.variable(name);
    if (variable) return this.invoking(variable, given);
    const upper = name.toUpperCase();
    const form = FORMS[upper];
    if (form) {
      this.functions.add(upper);
      return form(this, given, upper);
    }
    const builtIn = this.book.builtIn(upper);
    if (builtIn) {
      this.functions.add(upper);
      if (builtIn.isVolatile) this.isVolatile = true;
      return callOf(this, builtIn, given);
    }
    const meaning = this.book.vocabulary?.name(name, this.book.sheetNames[this.seat.sheet]!);
    if (meaning !== undefined) return this.invoking(meaningOf(this, name, meaning), given);
    throw new Lacking(this.book.missing(upper));
  }

  private invoking(callee: Run, given: readonly (Node | null)[]): Run {
    const values = given.map((one) => (one === null ? () => undefined : this.any(one)));
    return (frame) => {
      const lambda = callee(frame);
      if (lambda instanceof ErrorValue) return lambda;
      if (!(lambda instanceof Lambda)) throw REF;
      return frame.invoke(
        lambda,
        values.map((value) => value(frame)),
      );
    };
  }

  private letting(declarations: readonly (readonly [string, Node | null])[], body: Node | null): Run {
    const [first, ...others] = declarations;
    if (!first) {
      if (body === null) throw new Lacking('a calculation at the end of LET');
      return this.any(body);
    }
    const value = first[1] === null ? () => null : this.any(first[1]);
    const rest = this.with([first[0]], () => this.letting(others, body));
    return (frame) => {
      const outer = frame.environment;
      frame.environment = { value: value(frame), outer };
      try {
        return rest(frame);
      } finally {
        frame.environment = outer;
      }
    };
  }
}

/** `Lots!A1:A2:A5`: a reference behind a colon is on the sheet of the one before it. */
function onSheetOf(left: Node, right: Node): Node {
  if (left.type === 'BinaryExpression' && left.operator === ':') return onSheetOf(left.arguments[0]!, right);
  if (left.type !== 'ReferenceIdentifier' || right.type !== 'ReferenceIdentifier') return right;
  const sheet = left.value.slice(0, left.value.lastIndexOf('!') + 1);
  return right.value.includes('!') ? right : { ...right, value: sheet + right.value };
}

const union = (a: Reference, b: Reference): Reference => new Reference([...a.areas, ...b.areas]);

function ownValue(frame: Frame, reference: Reference): Scalar {
  const { sheet, top, left } = reference.isOneCell ? reference.area : ownCellOf(reference, frame).area;
  return frame.source.read(sheet, top, left);
}
