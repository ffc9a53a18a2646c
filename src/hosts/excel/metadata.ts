import { mayBeLeftOut, type Argument } from '../../worksheet/cells/arguments';
import { described } from '../../worksheet/described';
import type { DescribedFunction } from '../../worksheet/words';

/** A parameter as Excel's functions.json describes it. */
export interface ParameterMetadata {
  readonly name: string;
  readonly description: string;
  readonly type: 'any';
  readonly dimensionality: 'matrix';
  readonly optional?: true;
  readonly customEnumId?: string;
}

export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly helpUrl: string;
  readonly result: { readonly type: 'any'; readonly dimensionality: 'matrix' };
  readonly parameters: readonly ParameterMetadata[];
  /** The cell of a call: the pane lists calls that fault with their reason. */
  readonly options?: { readonly cancelable: true };
}

export interface EnumMetadata {
  readonly id: string;
  readonly type: 'string';
  readonly values: readonly {
    readonly name: string;
    readonly stringValue: string;
    readonly tooltip: string;
  }[];
}

export interface AddInMetadata {
  readonly allowErrorForDataTypeAny: true;
  readonly allowCustomDataForDataTypeAny: true;
  readonly functions: readonly FunctionMetadata[];
  readonly enums: readonly EnumMetadata[];
}

const choicesOf = (argument: Argument): Readonly<Record<string, string>> | undefined =>
  argument.shape === 'table' ? undefined : argument.kind.choices;

/** Ids of enums hold letters and digits only; arguments that offer the same words share one. */
const enumIdOf = (choices: Readonly<Record<string, string>>): string =>
  `choice_${Object.keys(choices)
    .map((word) => word.replace(/[^A-Za-z0-9]+/g, ''))
    .join('_')}`;

function parameterOf(argument: Argument): ParameterMetadata {
  const choices = choicesOf(argument);
  return {
    name: argument.name,
    description: argument.meaning,
    type: 'any',
    dimensionality: 'matrix',
    ...(mayBeLeftOut(argument) ? { optional: true } : {}),
    ...(choices === undefined ? {} : { customEnumId: enumIdOf(choices) }),
  };
}

function enumsOf(functions: readonly DescribedFunction[]): EnumMetadata[] {
  const byId = new Map<string, EnumMetadata>();
  for (const argument of functions.flatMap((definition) => definition.arguments)) {
    const choices = choicesOf(argument);
    if (choices === undefined) continue;
    const id = enumIdOf(choices);
    byId.set(id, {
      id,
      type: 'string',
      values: Object.entries(choices).map(([word, tooltip]) => ({ name: word, stringValue: word, tooltip })),
    });
  }
  return [...byId.values()];
}

/** What Excel is told of the catalogue; `url` is where the guide is served from. */
export function metadataOf(functions: readonly DescribedFunction[], url: string): AddInMetadata {
  return {
    allowErrorForDataTypeAny: true,
    allowCustomDataForDataTypeAny: true,
    functions: functions.map((definition) => ({
      id: definition.name,
      name: definition.name,
      description: definition.summary,
      helpUrl: `${url}guide.html#${definition.name}`,
      result: { type: 'any', dimensionality: 'matrix' },
      parameters: definition.arguments.map(parameterOf),
      ...(definition.takesLong && { options: { cancelable: true } }),
    })),
    enums: enumsOf(functions),
  };
}

/** The text of functions.json, for the build. */
export default function functionsJson({ url }: { url: string }): string {
  return `${JSON.stringify(metadataOf(described, url), null, 2)}\n`;
}
