import MiniSearch from 'minisearch';
import { catalogue } from '../../worksheet/catalogue';
import { PREFIX } from '../../worksheet/constants';

/** The function of the catalogue that was probably meant by a name in capitals that none has. */
export function nearestName(name: string): string | undefined {
  const own = name.startsWith(PREFIX);
  const asked = own ? name.slice(PREFIX.length) : name;
  const index = new MiniSearch({ fields: ['name'], tokenize: (text) => [text] });
  index.addAll(catalogue.map((definition, id) => ({ id, name: definition.name })));
  // A name without Pinset's prefix may be any function of any program: only one that is right but for it is ours.
  const [found] = index.search(asked, { fuzzy: own ? 0.3 : false, prefix: own });
  return found && PREFIX + catalogue[found.id as number]!.name;
}
