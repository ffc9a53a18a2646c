import { expect } from '@jest/globals';
import { CalcError, type Fault, type FaultCode, type FaultDetails } from '../../src/maths/shared/fault';

/** A fault as tables of refusals write it: the argument, the code, what it carries, and the index or `at` if any. */
export type Refusal<C extends FaultCode = FaultCode> = {
  readonly [K in C]: readonly [
    argument: string,
    code: K,
    details?: Partial<FaultDetails[K]>,
    where?: Pick<Fault, 'index' | 'at'>,
  ];
}[C];

/** Expects that the call throws this fault; where no index is written, that it names none. */
export function expectFault(call: () => unknown, [argument, code, details = {}, where = {}]: Refusal): void {
  let thrown: unknown;
  try {
    call();
  } catch (fault) {
    thrown = fault;
  }
  expect(thrown).toBeInstanceOf(CalcError);
  const { fault } = thrown as CalcError;
  expect({ index: fault.index, at: fault.at, argument: fault.argument, code: fault.code }).toEqual({
    index: where.index,
    at: where.at,
    argument,
    code,
  });
  expect(fault.details).toMatchObject(details);
}
