import { afterAll, beforeAll, expect, jest, test } from '@jest/globals';
import { run } from '../../../src/hosts/headless/command';

// A solver that breaks down inside, as one whose memory is full does: it shouts in words of its own.

const SHOUTED = 'Aborted(memory access out of bounds)';
jest.mock('highs', () => {
  const { default: load } = jest.requireActual<typeof import('highs')>('highs');
  return {
    __esModule: true,
    default: async () => ({
      constants: (await load()).constants,
      withModel: () => {
        console.error(SHOUTED);
        throw new Error('abort at HApp.h:214');
      },
    }),
  };
});

const shouted = jest.spyOn(console, 'error').mockImplementation(() => undefined);
const written = jest.spyOn(process.stderr, 'write').mockImplementation(() => true);
beforeAll(() => void written.mockClear());
afterAll(() => void jest.restoreAllMocks());

const MIX =
  '=PINSET.CHEAPESTMIX({"ingredient","cost","moisture","nitrogen";"straw",0.1,0.1,0.005;"bran",0.4,0.1,0.025},' +
  '{"need","lowest";"nitrogen",0.01})';
const PLAN =
  '=PINSET.LOADPLAN({"lot","strain","blocks","block mass","moisture","earliest","best","latest";"A-1","Alder-3",20,2.5,0.6,46050,46055,46070},' +
  '{"strain","first pick","pick days","efficiency";"Alder-3",7,4,0.6},' +
  '{"room","shelves","blocks per shelf";"North",10,12},{"product","mass","due";"Alder-3",10,46080},46050,28)';

test.each([
  ['CHEAPESTMIX', MIX],
  ['LOADPLAN', PLAN],
])('%s says it in our words in one line, with status 1, and nothing else goes out', async (name, formula) => {
  const [out, error]: [string[], string[]] = [[], []];
  const keep = { out: (line: string) => void out.push(line), error: (line: string) => void error.push(line) };
  const status = await run(['calc', formula], keep);
  expect({ status, out }).toEqual({ status: 1, out: [] });
  expect(error).toEqual([
    expect.stringMatching(
      new RegExp(
        `^#VALUE! ${name} has a fault of its own and could not answer; your cells are not to blame \\(`,
      ),
    ),
  ]);
  expect(error[0]).not.toMatch(/\n|\bat .*:\d+:\d+|Aborted/);
  expect([shouted.mock.calls, written.mock.calls]).toEqual([[], []]);
});
