import { unaccented } from './otherLanguages';
import { onceForText } from './once';

// Headers that no list holds word by word: one word of them tells what their column is, and the others say nothing else.
// `Colonization min`, `Open vanaf dag`, `Batch ref`, `Blokken per stelling`.

const words = (list: string): ReadonlySet<string> => new Set(list.split(' '));

const BLOCKS = words(
  'block blocks bag bags logs brick bricks tub tubs bucket buckets pc pcs piece pieces unit units bottle bottles jar jars tray trays blocke beutel bloc blocs sac sacs bloque bloques bolsa bolsas blok blokken zak zakken blocco blocchi sacco sacchi bloki blokow worki workow bloco blocos saco sacos pose poser blokke',
);
const COUNTS = words(
  'number no nr num n count qty quantity total how many substrate of the in per to lot batch that on a it anzahl stuck nombre nb quantite numero cantidad cant aantal quantita ilosc liczba quantidade antal de der das di van',
);
const MADE = words(
  'made make set spawned inoculated filled start started bagged built produced gemacht hergestellt beimpft faits produits hechos producidos gemaakt geent fatti prodotti zrobione feitos produzidos lavet fremstillet',
);
const SHELVES = words(
  'shelf shelves rack racks tier tiers level levels board boards regal regale boden ebene ebenen etage etages etagere etageres tablette tablettes rayon estante estantes balda baldas nivel niveles plank planken stelling stellingen rek rekken laag lagen ripiano ripiani scaffale scaffali polka polki polce polek regaly prateleira prateleiras hylde hylder reol',
);
const HOLDS = words(
  'capacity cap holds hold fits fit space spaces places per each a je pro par por por per na pr capacite kapazitat capacidad capaciteit capacita pojemnosc capacidade kapacitet',
);
const AGES = words(
  'day days date age d old time wk wks week weeks wochen semaines semanas weken colonization colonisation colonized colonised colonizing colonising colonise colonize incubation incubating incubate incubated spawn run block blocks bag bags open opening opened fruit fruiting ready wait waiting tag tage dag dagen dage jour jours dia dias giorno giorni dni dzien inkubation incubatie incubacion incubazione inkubacja incubacao durchwachsen kolonisatie at to in for op am le el the it is reif maduro pret rijp mur maturo klar moden',
);
const AFTER = words('after na nach apres po dopo despues efter apos by on so much too');
const FIRST = words(
  'first erste ersten erster eerste premiere premier primera primer prima primo pierwszy pierwszego primeira forste',
);
const CROP = words(
  'pick picks picking harvest harvests harvesting crop fruit fruits mushrooms ernte recolte cosecha oogst raccolta zbior zbioru colheita host',
);
const FLUSH = words(
  'flush flushes break breaks wave waves welle wellen schub schube volee volees oleada oleadas vlucht vluchten volata volate rzut rzuty vaga vagas bolge bolger',
);
const WEIGHTS = words('weight wt wgt mass poids peso gewicht waga masa vaegt');
const UNITS = words('kg kgs g gr lb lbs oz pound pounds kilo kilos gram grams');
const INTO = words(
  'abn abnet fruiting fruited loaded opened moved shelved racked hung placed transferred fruchtung ausgestellt aufgestellt',
);
const INTO_BESIDE = words(
  'date day on since to into in the start started starting begin began from of for when out put fruit room rooms tent house chamber tunnel grow area am seit ab',
);

const OUT = words('goes go going went set setting put putting out it they');

const all = (...sets: readonly ReadonlySet<string>[]): ReadonlySet<string> =>
  new Set(sets.flatMap((one) => [...one]));

interface Telling {
  /** Of each of these sets a header has a word. */
  readonly has: readonly ReadonlySet<string>[];
  /** Words that it may have besides. */
  readonly beside: ReadonlySet<string>;
}

const TELLING: Readonly<Record<string, readonly Telling[]>> = {
  lot: [
    {
      has: [words('lot lots batch batches charge chargen partij partie partia lote lotto parti serie seria')],
      beside: words(
        'ref reference no nr num number id code name label tag key unique the of our block blocks bag bags ident nummer numero naam nom nombre nome numer',
      ),
    },
  ],
  strain: [
    {
      has: [
        words(
          'strain strains variety varieties species genetics genetic cultivar cultivars culture cultures phenotype sorte pilzsorte souche variete cepa variedad soort ras ceppo varieta odmiana estirpe variedade sort',
        ),
      ],
      beside: words('spawn used name mushroom mushrooms type code of the which fungus fungi kind'),
    },
  ],
  blocks: [
    { has: [BLOCKS], beside: all(COUNTS, MADE) },
    { has: [MADE, COUNTS], beside: BLOCKS },
  ],
  'block mass': [
    {
      has: [WEIGHTS, BLOCKS],
      beside: all(
        UNITS,
        words('wet per each of one a avg average du de la del der je pro par por na pr fill filled net'),
      ),
    },
  ],
  moisture: [
    {
      has: [
        words(
          'moisture moist mc hydration humidite humedad feuchte feuchtigkeit vocht vochtgehalte umidita wilgotnosc humidade umidade fugt fugtighed',
        ),
      ],
      beside: all(
        BLOCKS,
        words('target aim content wet water level percent pct at of the substrate avg average mix du de des'),
      ),
    },
    {
      has: [words('water h2o wasser eau agua acqua woda vand'), all(BLOCKS, words('substrate mix'))],
      beside: words('in of the content share level percent pct at per im du del de nel w i'),
    },
  ],
  // No column of its own: the mass of a pick whose parts have columns too.
  'whole pick': [
    {
      has: [words('total net netto sum overall')],
      beside: all(WEIGHTS, UNITS, words('picked harvested harvest pick of the day')),
    },
  ],
  shelves: [
    {
      has: [SHELVES],
      beside: words(
        'number no nr num count qty of how many in it there anzahl nombre nb aantal numero ilosc liczba antal',
      ),
    },
  ],
  'blocks per shelf': [
    { has: [BLOCKS, words('each')], beside: COUNTS },
    {
      has: [words('holds hold places spaces fits capacity')],
      beside: all(BLOCKS, COUNTS, words('for max room')),
    },
    { has: [all(SHELVES, words('bay bays')), all(BLOCKS, HOLDS)], beside: COUNTS },
  ],
  earliest: [
    { has: [words('first'), words('day days week weeks open opening ready')], beside: AGES },
    {
      has: [
        words('ready ripe reif maduro pret rijp'),
        words('days day weeks week wks wk tage jours dias dagen'),
      ],
      beside: words('to until till from the are is after for room rooms fruiting opening be'),
    },
    {
      has: [words('can may could'), words('days day weeks week wks wk')],
      beside: all(AGES, words('go in be until till from first before after')),
    },
    {
      has: [
        words(
          'min minimum earliest soonest before from vanaf ab desde des od fra mindest mindestens minimaal minimal minimo mini vroegst fruhestens najwczesniej tidligst',
        ),
      ],
      beside: all(AGES, words('don t not')),
    },
  ],
  best: [
    { has: [words('open opening opened incubate incubated')], beside: AGES },
    {
      has: [
        words(
          'best ideal optimal optimum opt peak prime target usual typical beste bester ideale optimaal optimale ottimale optimo meilleur mejor najlepszy najlepiej melhor bedst bedste',
        ),
      ],
      beside: AGES,
    },
  ],
  latest: [
    { has: [words('use'), words('within by before')], beside: AGES },
    {
      has: [words('longer more'), words('than')],
      beside: all(AGES, words('don dont t not no never leave keep hold')),
    },
    {
      has: [words('most max maximum longest'), words('wait waits hold held keep kept leave left stand')],
      beside: all(AGES, AFTER, words('can be')),
    },
    { has: [words('don not never no'), words('after past beyond')], beside: all(AGES, words('t')) },
    {
      has: [
        words(
          'max maximum latest last maximal maximaal maximo maks senest spatestens uiterlijk uiterste weggooien entsorgen wegwerfen jeter tirar desechar buttare scartare wyrzucic kassere discard toss bin throw dump compost expires expiry expired limit deadline',
        ),
      ],
      beside: all(AGES, AFTER, words('away out off until till weg')),
    },
  ],
  'pick days': [
    {
      has: [
        all(CROP, FLUSH),
        words(
          'duration window length lasts period for d dauer duree duracion duur durata czas days day jours tage dias dagen giorni dni dage',
        ),
      ],
      beside: words('of the a one per each der de la del van d in is how many'),
    },
  ],
  'flush gap': [
    { has: [words('every'), all(FLUSH, words('then next again'))], beside: words('d day days week weeks') },
    {
      has: [
        words(
          'between btw betw gap gaps next second interval spacing rest resting repos descanso riposo rust ruhe ruhezeit hvile abstand pause tussen tussentijd entre intervalle intervalo intervallo przerwa mellem zwischen',
        ),
      ],
      beside: all(
        FLUSH,
        AFTER,
        words(
          'nd e days day d period time jours tage dias dagen giorni dni dage der de den las les los to till until the of in',
        ),
      ),
    },
  ],
  'first pick': [
    { has: [FIRST, FLUSH, words('days day d')], beside: all(AGES, AFTER, OUT, words('until till from')) },
    {
      has: [FIRST, CROP],
      beside: all(
        AGES,
        AFTER,
        OUT,
        words('until till from going moving moved loading loaded opening room bis tot hasta jusqu avant do'),
      ),
    },
  ],
  loaded: [
    { has: [INTO], beside: all(INTO_BESIDE, BLOCKS, COUNTS) },
    {
      has: [
        words('to into in onto on'),
        words('room rooms tent tents house fruiting shelf shelves tunnel chamber'),
      ],
      beside: words('date day went moved the of since from'),
    },
    {
      has: [words('used taken gone opened loaded fruited moved'), words('far already')],
      beside: all(BLOCKS, COUNTS, words('so n out to date')),
    },
  ],
  room: [
    {
      has: [
        words(
          'room rooms tent tents house houses tunnel chamber shed greenhouse container cellar barn bay raum halle salle sala kamer stanza rum',
        ),
      ],
      beside: words('grow growing fruiting name no nr number the our id which where'),
    },
  ],
};

const ONCE = /(?<![\d.,])1\s*(?:st|e|re|[eè]re|er|a|º|ª|\.)?(?=\s)/giu;

const BRACKETS = /\([^)]*\)|\[[^\]]*\]/g;

const plainWords = onceForText((header): readonly string[] =>
  unaccented(header.replace(ONCE, 'first '))
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== ''),
);

/** Whether the words of a header tell that its column is this one, without those in brackets or with them. */
export const isTold = (header: string, property: string): boolean =>
  areTelling(plainWords(header.replace(BRACKETS, ' ')), property) || areTelling(plainWords(header), property);

/** What people say around the word that tells: `Earliest I would open`, `Days we usually wait`. */
const FILLING = words(
  'i we you they our your it s ll d did would will could can may might should must dare want like have get got do does usually normally mostly about roughly approx around ca circa',
);

function areTelling(own: readonly string[], property: string): boolean {
  return (TELLING[property] ?? []).some(
    ({ has, beside }) =>
      has.every((set) => own.some((word) => set.has(word))) &&
      own.every((word) => beside.has(word) || FILLING.has(word) || has.some((set) => set.has(word))),
  );
}

/** Whether a header is of the days that a flush is picked, and not of those until it comes. */
export const isOfPicking = (header: string): boolean =>
  isTold(header, 'pick days') && !isTold(header, 'first pick');
