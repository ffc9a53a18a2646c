// The engine's templates, and in place of some of them our own.

/**
 * What stands beside a formula that is typed: its arguments, the one that is typed now by what it means. The engine's own
 * hides the meanings and calls every argument optional, because the engine lets any be left out.
 */
const ARGUMENTS = `
<t t-name="o-spreadsheet-FunctionDescriptionProvider">
  <div class="o-formula-assistant-container shadow arguments" tabindex="-1" t-on-pointerdown.prevent=""
    t-on-pointerup.stop="" t-on-keydown.stop="" t-on-click.stop="">
    <t t-set="context" t-value="getContext()"/>
    <t t-if="context.functionDescription.name">
      <p class="call">
        <t t-out="context.functionDescription.name"/>(<t t-foreach="context.functionDescription.args" t-as="arg"
          t-key="arg_index"><b t-if="context.argsToFocus.includes(arg_index)" t-out="arg.name.replaceAll('_', ' ')"/><span
          t-else="" t-out="arg.name.replaceAll('_', ' ')"/><t t-if="arg.repeating"> …</t><t t-if="!arg_last">, </t></t>)
      </p>
      <t t-foreach="context.functionDescription.args" t-as="arg" t-key="arg_index">
        <p class="meaning" t-if="context.argsToFocus.includes(arg_index) and arg.description">
          <b t-out="arg.name.replaceAll('_', ' ')"/> – <t t-out="arg.description"/>
        </p>
      </t>
      <p class="meaning" t-if="!context.argsToFocus.length" t-out="context.functionDescription.description"/>
    </t>
  </div>
</t>`;

/** The engine's words where they are not those of the rest of the page. */
const WORDS: Readonly<Record<string, string>> = {
  'Find and Replace': 'Find and replace',
  Search: 'Find',
  "e.g. 'search me'": 'a word, a lot, a day',
  "e.g. 'replace me'": 'what comes in its place',
  Replace: 'Replace',
  'Match case': 'Capitals as written',
  'Match entire cell content': 'Whole cells only',
  'Search in formulas': 'Look in formulas',
  'Current sheet': 'This sheet',
  'All sheets': 'All sheets',
  'Specific range': 'A range',
};

export const inOurWords = (text: string): string => WORDS[text.trim()] ?? text;

export function inOurClothes(templates: string): Document {
  const parser = new DOMParser();
  const all = parser.parseFromString(templates, 'text/xml');
  const own = parser.parseFromString(ARGUMENTS, 'text/xml').documentElement;
  const name = own.getAttribute('t-name')!;
  all.querySelector(`[t-name="${name}"]`)?.replaceWith(all.importNode(own, true));
  return all;
}
